#!/usr/bin/env python3
"""Prints the licence notices of every package the program is built of (stdin: cargo metadata)."""
import json
import pathlib
import sys

metadata = json.load(sys.stdin)
nodes = {node["id"]: node for node in metadata["resolve"]["nodes"]}
reached, todo = set(), [metadata["resolve"]["root"]]
while todo:
    package = todo.pop()
    if package in reached:
        continue
    reached.add(package)
    for dependency in nodes[package]["deps"]:
        if any(kind["kind"] != "dev" for kind in dependency["dep_kinds"]):
            todo.append(dependency["pkg"])

print("Jawtrue is built of the packages below. Their notices follow, each text once.\n")
texts = {}
for package in sorted(metadata["packages"], key=lambda package: package["name"]):
    if package["id"] not in reached or package["source"] is None:
        continue
    name = f"{package['name']} {package['version']} ({package['license']})"
    folder = pathlib.Path(package["manifest_path"]).parent
    found = sorted(
        path
        for pattern in ("LICEN[CS]E*", "COPYING*", "NOTICE*", "UNLICENSE*", "fonts/*LICENSE*", "fonts/*.txt")
        for path in folder.glob(pattern)
        if path.is_file()
    )
    if not found:
        authors = ", ".join(package["authors"]) or "its authors"
        texts.setdefault(f"No notice in the package; by {authors}.", []).append(name)
    for path in found:
        texts.setdefault(path.read_text(errors="replace").strip(), []).append(name)
for text, names in texts.items():
    print("=" * 78)
    print(", ".join(dict.fromkeys(names)))
    print("-" * 78)
    print(text + "\n")
