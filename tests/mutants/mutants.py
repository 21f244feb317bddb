#!/usr/bin/env python3
"""Puts faults into a copy of the sources and sees which the tests notice.

    pip install tree-sitter tree-sitter-rust
    tests/mutants/mutants.py sample --count 400 --seed 1   choose, put in, drop what does not compile
    tests/mutants/mutants.py build                         build every test with all of them, none on
    tests/mutants/mutants.py reach                         which test comes by which mutant
    tests/mutants/mutants.py run                           each mutant against the tests that reach it
    tests/mutants/mutants.py report

All mutants stand in one build and the environment variable MUTANT names the
one that is on, so that only the first build takes long. Everything is kept in
the folder `--work`; `run` goes on where it was stopped. `again` copies the
tests anew and forgets the verdicts of survivors (give `--only ID,ID` for
others), for after checks were added.
"""

import argparse
import json
import os
import random
import resource
import subprocess
import sys
import threading
import time
from collections import Counter
from pathlib import Path

from sites import Finder, constants, render, tests_only

HOUSE = Path(__file__).resolve().parents[2]
ROOMS = ("units", "stats", "press", "splice", "plan", "session", "store", "cli")
# Reads the sources themselves.
NOT_FOR_MUTANTS = {"walls"}
# So many tests of one binary are named one by one; more, and all of it runs.
NAMED_TESTS = 150
# Start-up and a busy machine, beside a multiple of what the tests took unchanged.
LEAST_SECONDS, SLOWER = 30, 6
MEMORY = 8 << 30


class Campaign:
    def __init__(self, options):
        self.options = options
        self.work = Path(options.work).resolve()
        self.tree = self.work / "tree"
        self.environment = dict(
            os.environ, CARGO_TARGET_DIR=str(Path(options.target).resolve()), PROPTEST_RNG_SEED="1",
            CARGO_MANIFEST_DIR=str(self.tree), RUST_BACKTRACE="0", PROPTEST_MAX_SHRINK_ITERS="0",
        )

    def load(self, name):
        return json.loads((self.work / name).read_text())

    def keep(self, name, what):
        (self.work / name).write_text(json.dumps(what, indent=1, ensure_ascii=False))

    # -- choosing

    def room_files(self):
        """Every source file of the rooms that is built outside tests."""
        files = {}
        for room in ROOMS:
            paths = [*(HOUSE / "src" / room).rglob("*.rs")]
            if (HOUSE / "src" / f"{room}.rs").exists():
                paths.append(HOUSE / "src" / f"{room}.rs")
            without = set()
            for path in paths:
                folder = path.parent if path.name == "mod.rs" else path.with_suffix("")
                for name in tests_only(path.read_text()):
                    without |= {folder / f"{name}.rs", folder / name / "mod.rs"}
            files[room] = sorted(path for path in paths if path not in without)
        return files

    def candidates(self):
        files = self.room_files()
        known = constants(path.read_text() for paths in files.values() for path in paths)
        found, lines = {}, {}
        for room, paths in files.items():
            found[room] = []
            lines[room] = sum(len(path.read_text().splitlines()) for path in paths)
            for path in paths:
                name = str(path.relative_to(HOUSE))
                found[room] += Finder(name, path.read_text(), known).found
        return found, lines

    def sample(self):
        chance = random.Random(self.options.seed)
        found, lines = self.candidates()
        whole, chosen = sum(lines.values()), []
        for room, mutants in found.items():
            share = round(self.options.count * lines[room] / whole)
            picked = chance.sample(mutants, min(share, len(mutants)))
            chosen += [dict(mutant, room=room) for mutant in picked]
            print(f"{room}: {lines[room]} lines, {len(mutants)} possible mutants, {len(picked)} chosen")
        for number, mutant in enumerate(chosen):
            mutant["id"] = number
        self.work.mkdir(parents=True, exist_ok=True)
        self.keep("possible.json", {room: len(mutants) for room, mutants in found.items()})
        self.compiling(chosen)

    def copy(self, mutants):
        """The sources with the mutants put in, the tests beside them; what is
        the same as before is not touched, so that it is not built again.
        Says where each mutant stands in the copy."""
        wanted, spans = {}, {}
        order = ["git", "ls-files", "--cached", "--others", "--exclude-standard"]
        for name in subprocess.run(order, cwd=HOUSE, capture_output=True, text=True).stdout.splitlines():
            if (HOUSE / name).is_file():
                wanted[Path(name)] = (HOUSE / name).read_bytes()
        for name in NOT_FOR_MUTANTS:
            del wanted[Path("tests", f"{name}.rs")]
        for file in {mutant["file"] for mutant in mutants}:
            inside = [mutant for mutant in mutants if mutant["file"] == file]
            wanted[Path(file)], spans[file] = render(wanted[Path(file)], inside)
        rooms = Path("src/lib.rs")
        wanted[rooms] = b"#![allow(warnings)]\n" + wanted[rooms] + b"\npub mod mutant_switch;\n"
        wanted[Path("src/mutant_switch.rs")] = (HOUSE / "tests/mutants/switch.rs").read_bytes()
        # Another version, so that cargo does not take the copy for the house.
        manifest = Path("Cargo.toml")
        wanted[manifest] = wanted[manifest].replace(b'\nversion = "', b'\nversion = "0.0.0-', 1)
        for path in [*self.tree.rglob("*")]:
            if path.is_file() and path.relative_to(self.tree) not in wanted:
                path.unlink()
        for name, content in wanted.items():
            path = self.tree / name
            if not path.exists() or path.read_bytes() != content:
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(content)
        return spans

    def compiling(self, chosen):
        """Drops the mutants rustc refuses until it refuses none."""
        kept = chosen
        for turn in range(30):
            refused = self.refused(self.copy(kept))
            print(f"turn {turn}: {len(kept)} put in, {len(refused)} refused", flush=True)
            if not refused:
                self.keep("mutants.json", kept)
                return
            kept = [mutant for mutant in kept if mutant["id"] not in refused]
        sys.exit("rustc still refuses something")

    def refused(self, spans):
        order = ["cargo", "check", "--lib", "-j", "2", "--message-format=json", "-q"]
        done = subprocess.run(order, cwd=self.tree, env=self.environment, capture_output=True, text=True)
        guilty = set()
        for line in done.stdout.splitlines():
            told = json.loads(line)
            message = told.get("message", {})
            if told.get("reason") != "compiler-message" or message.get("level") != "error":
                continue
            at = sorted(message["spans"], key=lambda span: not span["is_primary"])
            inside = []
            for span in at:
                for number, (start, end) in spans.get(span["file_name"], {}).items():
                    if start <= span["byte_start"] and span["byte_end"] <= end:
                        inside.append((not span["is_primary"], end - start, number))
            if inside:
                guilty.add(min(inside)[2])
            elif at:
                print("not placed:", message["rendered"][:600])
                near = [(abs(start - span["byte_start"]), number) for span in at
                        for number, (start, _) in spans.get(span["file_name"], {}).items()]
                guilty |= {min(near)[1]} if near else set()
        if done.returncode and not guilty:
            sys.exit(done.stderr + "\nrustc refuses something that is no mutant's")
        return guilty

    # -- building

    def build(self):
        order = ["cargo", "test", "--no-run", "-j", "2", "--message-format=json"]
        for name in self.options.tests.split():
            order += ["--lib"] if name == "lib" else ["--test", name]
        done = subprocess.run(order, cwd=self.tree, env=self.environment, stdout=subprocess.PIPE, text=True)
        binaries = {}
        for line in done.stdout.splitlines():
            told = json.loads(line)
            if told.get("reason") == "compiler-message" and told["message"]["level"] == "error":
                print(told["message"]["rendered"])
            if told.get("executable") and told["profile"]["test"] and told["target"]["kind"] != ["bench"]:
                name = "lib" if told["target"]["kind"] == ["lib"] else told["target"]["name"]
                if told["target"]["kind"] != ["bin"]:
                    binaries[name] = told["executable"]
        if done.returncode:
            sys.exit("the tests do not build")
        path = self.work / "binaries.json"
        if self.options.tests and path.exists():
            binaries = self.load("binaries.json") | binaries
        self.keep("binaries.json", binaries)
        print(len(binaries), "test binaries")

    def again(self):
        """New tests, same mutants: the copy is made anew, survivors run again."""
        possible = [mutant for found in self.candidates()[0].values() for mutant in found]
        mutants = [self.found_again(mutant, possible) for mutant in self.load("mutants.json")]
        mutants = [mutant for mutant in mutants if mutant]
        only = {int(number) for number in self.options.only.split(",")} if self.options.only else None
        self.copy(mutants)
        self.keep("mutants.json", mutants)
        kept = [one for one in self.results().values()
                if (one["id"] not in only if only else one["caught"])]
        (self.work / "results.jsonl").write_text("".join(json.dumps(one) + "\n" for one in kept))
        self.build()
        self.reach()

    def found_again(self, mutant, possible):
        """The mutant in the sources as they are now; none where it is gone."""
        # The file may have moved.
        same = ("fn", "kind", "how", "old", "new")
        alike = [one for one in possible if all(one[key] == mutant[key] for key in same)]
        nearest = min(alike, key=lambda one: (Path(one["file"]).name != Path(mutant["file"]).name,
                                              abs(one["start"] - mutant["start"])), default=None)
        return nearest and dict(nearest, id=mutant["id"], room=mutant["room"])

    # -- which test reaches what

    def reach(self):
        binaries = self.load("binaries.json")
        path = self.work / "reach.json"
        known = self.load("reach.json") if path.exists() else {}
        for name, program in sorted(binaries.items()):
            stamp = os.stat(program).st_mtime
            if known.get(name, {}).get("stamp") == stamp:
                continue
            log = self.work / "touched"
            log.unlink(missing_ok=True)
            surroundings = dict(self.environment, MUTANT="record", MUTANT_LOG=str(log))
            began = time.monotonic()
            done = subprocess.run(["nice", program, "--test-threads=2"], cwd=self.tree,
                                  env=surroundings, capture_output=True, text=True)
            took = time.monotonic() - began
            tests = set()
            for line in done.stdout.splitlines():
                if line.startswith("test ") and " ... " in line:
                    tests.add(line[5:].split(" ... ")[0].removesuffix(" - should panic"))
            touched = {}
            for line in log.read_text().splitlines() if log.exists() else []:
                number, thread = line.split(" ", 1)
                touched.setdefault(number, set()).add(thread if thread in tests else "?")
            if done.returncode:
                print(done.stdout[-3000:], f"{name} fails with no mutant on: left out", flush=True)
            known[name] = {
                "stamp": stamp, "seconds": took, "sound": done.returncode == 0, "tests": len(tests),
                "touched": {number: sorted(names) for number, names in touched.items()},
            }
            self.keep("reach.json", known)
            print(f"{name}: {took:.1f} s, {len(tests)} tests, {len(touched)} mutants", flush=True)

    def tests_for(self, mutant, reach):
        """Binaries that reach a mutant and their tests, the quickest first."""
        plan = []
        for name, seen in reach.items():
            tests = seen["touched"].get(str(mutant["id"]))
            if not tests or not seen["sound"]:
                continue
            if "?" in tests or len(tests) > NAMED_TESTS:
                tests = []
            share = len(tests) / seen["tests"] if tests else 1.0
            if seen["seconds"] * share > self.options.heavy:
                continue
            plan.append((name != "lib", seen["seconds"] * share, seen["seconds"], name, tests))
        return sorted(plan)

    # -- running

    def results(self):
        path = self.work / "results.jsonl"
        lines = path.read_text().splitlines() if path.exists() else []
        return {one["id"]: one for one in map(json.loads, lines)}

    def run(self):
        mutants, reach, binaries = (self.load(f"{name}.json") for name in ("mutants", "reach", "binaries"))
        done = self.results()
        settled = {number for number, one in done.items()
                   if one["caught"] or one["heavy"] >= self.options.heavy}
        waiting = [mutant for mutant in mutants if mutant["id"] not in settled]
        # The quickest first: most of the answer is there early.
        waiting.sort(key=lambda mutant: sum(one[1] for one in self.tests_for(mutant, reach)), reverse=True)
        lock = threading.Lock()

        def work():
            while True:
                with lock:
                    if not waiting:
                        return
                    mutant = waiting.pop()
                result = self.try_out(mutant, self.tests_for(mutant, reach), binaries)
                with lock:
                    with open(self.work / "results.jsonl", "a") as out:
                        out.write(json.dumps(result) + "\n")
                    print(len(waiting), mutant["id"], mutant["file"], mutant["line"],
                          result.get("by", "SURVIVES"), flush=True)

        workers = [threading.Thread(target=work) for _ in range(self.options.jobs)]
        for worker in workers:
            worker.start()
        for worker in workers:
            worker.join()
        self.report()

    def try_out(self, mutant, plan, binaries):
        began = time.monotonic()
        result = {"id": mutant["id"], "caught": False, "heavy": self.options.heavy}
        for _, _, whole, name, tests in plan:
            limit = LEAST_SECONDS + SLOWER * whole
            by = self.failure(binaries[name], tests, mutant["id"], limit)
            if by:
                result.update(caught=True, by=f"{name}: {by}")
                break
        result["seconds"] = round(time.monotonic() - began, 1)
        return result

    def failure(self, program, tests, number, limit):
        """The first test that fails, `too slow`, or nothing."""
        order = ["nice", program, "--test-threads=1", *(["--exact", *tests] if tests else [])]
        surroundings = dict(self.environment, MUTANT=str(number))
        child = subprocess.Popen(
            order, cwd=self.tree, env=surroundings, text=True, errors="replace",
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, start_new_session=True,
            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY)))
        slow = threading.Event()

        def stop():
            slow.set()
            os.killpg(child.pid, 9)

        clock = threading.Timer(limit, stop)
        clock.start()
        failed, ran = None, None
        for line in child.stdout:
            if line.startswith("test ") and " ... " in line:
                ran = line[5:].split(" ... ")[0]
            if line.rstrip().endswith("FAILED") and ran:
                failed = ran
                break
        if failed and child.poll() is None:
            os.killpg(child.pid, 9)
        child.wait()
        clock.cancel()
        if slow.is_set():
            return f"too slow after {ran}"
        if failed or child.returncode:
            return failed or f"ended with {child.returncode} after {ran}"
        return None

    # -- telling

    def report(self):
        mutants, results = self.load("mutants.json"), self.results()
        reached = {number for seen in self.load("reach.json").values() for number in seen["touched"]}
        rooms = {room: Counter() for room in ROOMS}
        for mutant in mutants:
            counts = rooms[mutant["room"]]
            counts["sampled"] += 1
            is_reached = str(mutant["id"]) in reached
            counts["reached"] += is_reached
            if result := results.get(mutant["id"]):
                counts["tried"] += 1
                counts["caught"] += result["caught"]
                if not result["caught"]:
                    print(f"{mutant['id']} {mutant['file']}:{mutant['line']} {mutant['fn']} {mutant['kind']}"
                          f"{'' if is_reached else ' (never reached)'}\n"
                          f"    {' '.join(mutant['old'].split())[:150]}  ->  {' '.join(mutant['new'].split())[:150]}")
        total = sum(rooms.values(), Counter())
        for room, counts in [*rooms.items(), ("all", total)]:
            share = 100 * counts["caught"] / max(counts["tried"], 1)
            print(f"{room:8} " + " ".join(f"{word} {counts[word]:4}" for word in
                  ("sampled", "tried", "reached", "caught")) + f"  {share:.1f} %")


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("step", choices=("sample", "build", "reach", "run", "again", "report"))
    words.add_argument("--work", default=str(HOUSE / "target/mutants"))
    words.add_argument("--target", default=str(HOUSE / "target"))
    words.add_argument("--count", type=int, default=400)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--jobs", type=int, default=2)
    words.add_argument("--heavy", type=float, default=1e9, help="leave out tests that take more seconds")
    words.add_argument("--only", default="", help="mutants that `again` forgets the verdict of, parted by commas")
    words.add_argument("--tests", default="", help="build and ask these tests alone, parted by blanks")
    options = words.parse_args()
    getattr(Campaign(options), options.step)()


if __name__ == "__main__":
    main()
