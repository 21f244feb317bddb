//! The text commands: what they print, what they refuse and how.

mod common;

use std::fs;
use std::process::Stdio;

use common::{Shop, program, ran};

const NEW: &str = "new p.jawtrue --arms 6,18,30,42 --length 48 --unit in";

#[test]
fn a_session_is_made_recorded_judged_and_planned() {
    let shop = Shop::new();
    let options = "--stations 12,24 --notch 0.004 --tolerance 0.003 --gauge-step 0.0005 \
         --nuts -4,-4,-3,-4 --nut-limits -12..6 --when 2026-11-25";
    assert_eq!(
        shop.out(&format!("{NEW} {options}")),
        "Visit started: p.jawtrue\n"
    );
    let recorded = shop.out(
        "record p.jawtrue --laced today \
         --readings '0.2500 0.2505, , 0.2445 0.2440, 1/4, .2510in 6.375mm, 0.2525'",
    );
    assert_eq!(
        recorded,
        "Pass 1 recorded: p.jawtrue\nAlready outside the tolerance. Still to measure: A+6. Spread 0.0082″, limit 0.003″. The splice is thickest at D and thinnest at B: the jaws are not true.\n"
    );
    shop.out("record p.jawtrue --readings '0.25,0.25,0.25,0.25,0.25,0.2531' --turned 0,+1,-2,0");
    let session = shop.open("p.jawtrue");
    let nuts: Vec<i32> = session.passes[1].nuts.iter().map(|nut| nut.0).collect();
    assert_eq!(nuts, [-4, -3, -5, -4]);
    let texts: Vec<&str> = session.passes[0].rows[4]
        .iter()
        .map(|cell| cell.text())
        .collect();
    assert_eq!(texts, [".2510in", "6.375mm"]);
    assert_eq!(
        shop.out("judge p.jawtrue"),
        format!(
            "p.jawtrue, pass 2 of 2, {}\n\x20 measuring point  readings  average\n\x20 A                0.2500    0.2500   thinnest\n\x20 A+6              0.2500    0.2500\n\x20 B                0.2500    0.2500\n\x20 B+6              0.2500    0.2500\n\x20 C                0.2500    0.2500\n\x20 D                0.2531    0.2531   thickest\nSpread 0.0031″, limit 0.003″. The splice is thickest at D and thinnest at A: the jaws are not true. Just past the limit, and measured only once: measure A, A+6, B, B+6, C, D again before you call this piece outside.\nThis piece: outside, at least 95% sure. Chance that it is really inside: less than 1%.
The jaws as they are now, over many pieces: outside, at least 95% sure. Chance that they are inside on average: 4%.
The next piece, if no nut is turned: 6% chance of being inside.
",
            session.passes[1].laced
        )
    );
    let planned = shop.out("plan p.jawtrue");
    // To be measured again first: what turns would do, and none to make.
    assert!(planned.contains("\n  D IN 1 "), "{planned}");
    assert!(!planned.contains("from -4 to -5"), "{planned}");
    shop.lay("plainly.jawtrue", &["0.2500", "0.2500", "0.2500", "0.2600"]);
    let planned = shop.out("plan plainly.jawtrue");
    let turn = planned.find("D  IN ");
    let safe = planned.find("Before hands go in, every time: tell those affected; power off");
    assert!(safe.is_some() && safe < turn, "{planned}");
    // Nobody looked at the thread of this press yet: no way is told.
    assert!(planned.contains("look at the thread first"), "{planned}");
    assert!(!planned.contains("clockwise"), "{planned}");
    let doubt = planned.find("First choose the gauge");
    assert!(doubt.is_some() && doubt < turn, "{planned}");
}

#[test]
fn the_keys_of_json_are_fixed() {
    let shop = Shop::new();
    shop.lay(
        "a.jawtrue",
        &["0.2500 0.2505", "0.2445 0.2440", "0.2510 0.2505", "0.2525"],
    );
    shop.lay("b.jawtrue", &["0.2500", "0.2470"]);
    let told = shop.out("judge --json a.jawtrue b.jawtrue");
    let (first, second) = told.split_once('\n').unwrap();
    let begins = [
        "{\"file\":\"a.jawtrue\",\"unit\":\"in\",\"spread\":0.00825,\"tolerance\":0.003,\
         \"inside\":false,\"thickest\":\"D\",\"thinnest\":\"B\",\"accepted\":false,\
         \"chance\":0.0,\"verdict\":\"outside\",\"confidence\":0.95,\"u\":[0.0002",
        "{\"file\":\"b.jawtrue\",\"unit\":\"in\",\"spread\":0.003,\"tolerance\":0.003,\
         \"inside\":true,\"thickest\":\"A\",\"thinnest\":\"B\",\"accepted\":true,\
         \"chance\":0.51",
    ];
    assert!(first.starts_with(begins[0]), "{first}");
    assert!(second.starts_with(begins[1]), "{second}");
    for line in [first, second] {
        let line: serde_json::Value = serde_json::from_str(line).unwrap();
        assert_eq!(line["piece"]["chance"], line["chance"]);
        assert_eq!(line["piece"]["verdict"], line["verdict"]);
        assert!(line["press"]["chance"].is_number());
        assert!(line["press"]["verdict"].is_string());
        assert!(line["next_piece"].is_number());
        assert!(line["measure_again"].is_array());
        assert!(line["u"][0].as_f64().unwrap() > 0.000_1);
    }
    let told = shop.out("plan a.jawtrue --json b.jawtrue");
    let lines: Vec<serde_json::Value> = told
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(lines.len(), 2);
    for (line, file) in lines.iter().zip(["a.jawtrue", "b.jawtrue"]) {
        let keys: Vec<&String> = line.as_object().unwrap().keys().collect();
        for key in [
            "file",
            "unit",
            "turns",
            "spread",
            "chance",
            "options",
            "smallest_spread",
            "seconds",
        ] {
            assert!(keys.iter().any(|found| *found == key), "{key}: {told}");
        }
        assert_eq!(line["file"], file);
        let leave = &line["options"][0];
        assert_eq!(leave["kind"], "leave");
        // Every further piece takes twenty minutes.
        let [pieces, minutes] = ["pieces", "minutes"].map(|key| leave[key].as_f64().unwrap());
        assert!(pieces >= 1.0 && minutes >= 20.0 * pieces, "{leave}");
    }
    // Two tenths of a thou beyond the limit by single readings to half a thou:
    // read once more before any turn, as the text says. Plainly beyond: turn.
    shop.lay("just.jawtrue", &["0.2500", "0.2468", "0.2480"]);
    shop.lay("plainly.jawtrue", &["0.2500", "0.2400", "0.2480"]);
    // Where turning would be the best act but for the single readings, too.
    shop.lay("single.jawtrue", &["0.2500", "0.2464", "0.2464"]);
    for (file, action) in [
        ("just", "measure"),
        ("single", "measure"),
        ("plainly", "turn"),
    ] {
        let told = shop.out(&format!("plan --json {file}.jawtrue"));
        let line: serde_json::Value = serde_json::from_str(&told).unwrap();
        assert_eq!(line["action"], action, "{told}");
        let turns = line["turns"].as_array().unwrap();
        assert_eq!(
            turns.iter().any(|turn| turn != 0),
            action == "turn",
            "{told}"
        );
    }
    // Inside by the plain comparison: nothing is turned.
    assert_eq!(lines[1]["turns"], serde_json::json!([0, 0]));
    // No nut may be touched: the piece stays as it was read.
    let line = shop.json("plan --json --most-nuts 0 a.jawtrue");
    let left = serde_json::json!({ "turns": [0, 0, 0, 0], "spread": 0.00825 });
    assert_eq!(line["smallest_spread"], left);
    assert_eq!(line["turns"], left["turns"]);
    // Thick at A: out at B, where in at A would do too.
    shop.lay("c.jawtrue", &["0.2560", "0.2500"]);
    let line = shop.json("plan --json --outward-only c.jawtrue");
    for turns in [&line["turns"], &line["smallest_spread"]["turns"]] {
        let turns: Vec<i64> = serde_json::from_value(turns.clone()).unwrap();
        assert!(
            turns.iter().all(|turn| *turn >= 0) && turns[1] > turns[0],
            "{told}"
        );
    }
}

#[test]
fn numbers_are_the_shortest_that_equal_the_figure() {
    let shop = Shop::new();
    shop.out("new m.jawtrue --arms 150,515,885 --length 1000 --unit mm");
    shop.out("record m.jawtrue --readings '6.40 6.41 6.42, 6.30 6.30 6.31, 6.36'");
    let judged = shop.out("judge --json m.jawtrue");
    // 6.41 less 6.30333... is 0.10666..., to the last bit.
    let spread = format!(
        "\"spread\":{},\"tolerance\":0.1,\"inside\":false",
        0.32 / 3.0
    );
    assert!(judged.contains(&spread), "{judged}");
    assert!(judged.contains("\"unit\":\"mm\""), "{judged}");
    // Stations between the arms by distance, ties to the left.
    shop.out("new s.jawtrue --arms 6,18 --length 24 --unit in --stations 3,12");
    shop.out("record s.jawtrue --readings '0.2600, 0.2500, 0.2600, 0.2500'");
    let judged = shop.out("judge --json s.jawtrue");
    assert!(
        judged.contains(
            "\"spread\":0.01,\"tolerance\":0.003,\"inside\":false,\
             \"thickest\":\"A-3\",\"thinnest\":\"A\""
        ),
        "{judged}"
    );
}

#[test]
fn a_file_that_fails_stops_nothing() {
    let shop = Shop::new();
    shop.lay("good.jawtrue", &["0.2500", "0.2470"]);
    shop.out("new none.jawtrue --arms 6,18 --length 24 --unit in");
    shop.write("empty.jawtrue", "");
    let files = "good.jawtrue missing.jawtrue empty.jawtrue none.jawtrue good.jawtrue";
    let sentences = [
        "There is no such file or folder.",
        "This file is empty. Look beside it for a file whose name ends in .backup.",
        "There is no pass yet. Lace a test piece and enter its readings.",
    ];
    for command in ["judge", "plan"] {
        let told = shop.run(&format!("{command} --json {files}"));
        assert_eq!(told.status, 2);
        let lines: Vec<&str> = told.out.lines().collect();
        assert_eq!(lines.len(), 5, "{}", told.out);
        // Only the time it took differs.
        let untimed = |line: &str| line.split(",\"seconds\"").next().map(str::to_owned);
        assert_eq!(untimed(lines[0]), untimed(lines[4]));
        let names = files.split_whitespace().skip(1);
        for ((line, sentence), name) in lines[1..].iter().zip(sentences).zip(names) {
            assert_eq!(
                *line,
                format!("{{\"file\":\"{name}\",\"error\":\"{sentence}\"}}")
            );
            assert!(
                told.err.contains(&format!("{sentence} File: {name}\n")),
                "{}",
                told.err
            );
        }
        let text = shop.run(&format!("{command} {files}"));
        // A blank line parts the answers about the files.
        assert_eq!(
            text.out.split("\n\ngood.jawtrue, ").count(),
            2,
            "{}",
            text.out
        );
        assert!(text.out.starts_with("good.jawtrue, "));
        assert_eq!((text.status, &text.err), (2, &told.err));
        assert_eq!(text.out.matches("the jaws are true").count(), 0);
        assert_eq!(text.out.matches("The jaws are true").count(), 2);
    }
}

#[test]
fn many_files_come_in_the_order_of_the_arguments() {
    let shop = Shop::new();
    let names: Vec<String> = (0..200).map(|n| format!("{n}.jawtrue")).collect();
    for (index, name) in names.iter().enumerate() {
        // Every tenth is large, so that the ones after it are done sooner.
        let readings = "0.2500 ".repeat(if index % 10 == 0 { 900 } else { 1 });
        shop.lay(name, &[&readings, "0.2470"]);
    }
    let told = shop.out(&format!("judge --json {}", names.join(" ")));
    for (line, name) in told.lines().zip(&names) {
        assert!(
            line.starts_with(&format!("{{\"file\":\"{name}\",")),
            "{line}"
        );
    }
    assert_eq!(told.lines().count(), 200);
}

#[test]
fn bad_options_get_a_sentence() {
    let shop = Shop::new();
    shop.lay("p.jawtrue", &["0.2500", "0.2470"]);
    shop.refuses_all(
        r"
judge
    The name of a visit file is missing.
plan --json
    The name of a visit file is missing.
new --unit in
    The name of a visit file is missing.
record --readings 1,2
    The name of a visit file is missing.
judge --fast p.jawtrue
    “--fast” is not an option of this command.
judge -x p.jawtrue
    “-x” is not an option of this command.
judge --json=yes p.jawtrue
    --json takes no value; remove “yes”.
plan p.jawtrue --most-nuts
    --most-nuts: a value is missing after it.
plan p.jawtrue --most-nuts two
    --most-nuts: must be a whole number such as -4 or +2; “two” is not.
plan p.jawtrue --most-nuts -1
    --most-nuts: must be 0 or more; this is “-1”.
record p.jawtrue
    --readings is missing; this command needs it.
record p.jawtrue q.jawtrue
    Only one file here; “q.jawtrue” is another. Put a value with spaces between quotation marks.
p.jawtrue q.jawtrue
    “q.jawtrue” is too much here.
--language fr
    --language: must be en or es; this is “fr”.
learn p.jawtrue
    --press is missing; this command needs it.
learn --press q.jawpress
    The name of a visit file is missing.
",
    );
    shop.refuses(
        "record --language es p.jawtrue --reading 1,2",
        "«--reading» no es una opción de este comando.\nVea: jawtrue --help",
    );
    shop.refuses(
        "--language es judge",
        "Falta el nombre de un archivo de visita.\nVea: jawtrue --help",
    );
}

#[test]
fn a_session_that_cannot_be_is_not_started() {
    let shop = Shop::new();
    shop.refuses_all(
        r"
new n.jawtrue --arms 6,18 --length 24
    --unit is missing; this command needs it.
new n.jawtrue --arms 6,18 --unit in
    --length is missing; this command needs it.
new n.jawtrue --length 24 --unit in
    --arms is missing; this command needs it.
new n.jawtrue --arms 6,18 --length 24 --unit ft
    --unit: must be in or mm; this is “ft”.
new n.jawtrue --arms 6,x --length 24 --unit in
    --arms, value 2: must be a length such as 0.2475; “x” is not.
new n.jawtrue --arms 6,,18 --length 24 --unit in
    --arms, value 2: a length such as 0.2475 is missing.
new n.jawtrue --arms -6,18 --length 24 --unit in
    --arms, value 1: no plus or minus sign here; write a length such as 0.2475.
new n.jawtrue --arms 18,6 --length 24 --unit in
    Arm B: must be 0.03937″ or more to the right of its neighbor at 18″; this is 6″. Give the arms from the operator's left.
new n.jawtrue --arms 6 --length 24 --unit in
    Number of arms: must be 2 to 12; this is 1.
new n.jawtrue --arms 1,2,3,4,5,6,7,8,9,10,11,12,13 --length 24 --unit in
    Number of arms: must be 2 to 12; this is 13.
new n.jawtrue --arms 6,30 --length 24 --unit in
    Arm B: must be on the jaw, 0 to 24″; this is 30″.
new n.jawtrue --arms 6,18 --length 0 --unit in
    Jaw length: must be 1.96850″ to 393.70079″; this is 0″.
new n.jawtrue --arms 6,18 --length 24 --unit in --notch 1
    Arm A: Thickness per notch: must be 0.00004″ to 0.19685″; this is 1″.
new n.jawtrue --arms 6,18 --length 24 --unit in --notch 0.004,0.004,0.004
    --notch: 2 values are needed, separated by commas, one per arm; there are 3.
new n.jawtrue --arms 6,18 --length 24 --unit in --tolerance NaN
    --tolerance, value 1: must be a length such as 0.2475; “NaN” is not.
new n.jawtrue --arms 6,18 --length 24 --unit in --gauge-step 1e-3
    --gauge-step, value 1: must be a length such as 0.2475; “1e-3” is not.
new n.jawtrue --arms 6,18 --length 24 --unit in --nuts -4
    --nuts: 2 values are needed, separated by commas, one per arm; there are 1.
new n.jawtrue --arms 6,18 --length 24 --unit in --nuts -4,x
    --nuts: must be a whole number such as -4 or +2; “x” is not.
new n.jawtrue --arms 6,18 --length 24 --unit in --nuts 0,201
    Nut position in notches from flush: must be -200 to 200; this is 201.
new n.jawtrue --arms 6,18 --length 24 --unit in --nut-limits -12
    --nut-limits: must be two positions such as -12..6; “-12” is not.
new n.jawtrue --arms 6,18 --length 24 --unit in --nut-limits 6..-12
    Arm A: the IN limit (6) can't be further out than the OUT limit (-12). The smaller number is the IN limit.
new n.jawtrue --arms 6,18 --length 24 --unit in --stations 6
    There is already a measuring point at 6″ or less than 1 mm from it. Type another place.
new n.jawtrue --arms 6,18 --length 24 --unit in --stations 25
    Measuring point: must be on the jaw, 0 to 24″; this is 25″.
new no/folder/n.jawtrue --arms 6,18 --length 24 --unit in
    Not saved. There is no such file or folder. File: no/folder/n.jawtrue
",
    );
    assert_eq!(fs::read_dir(shop.path()).unwrap().count(), 0);
}

#[test]
fn an_existing_file_is_never_written_over() {
    let shop = Shop::new();
    let path = shop.path().join("p.jawtrue");
    for content in ["no session", ""] {
        fs::write(&path, content).unwrap();
        shop.refuses(
            NEW,
            "Not saved: there is already a file of this name, and it is never overwritten. Choose another name. File: p.jawtrue",
        );
        assert_eq!(fs::read_to_string(&path).unwrap(), content);
    }
    fs::remove_file(&path).unwrap();
    fs::create_dir(&path).unwrap();
    shop.refuses(
        NEW,
        "Not saved: this name is taken by a folder or a device. Choose another name. File: p.jawtrue",
    );
}

#[test]
fn readings_that_are_none_are_not_recorded() {
    let shop = Shop::new();
    shop.out("new p.jawtrue --arms 6,18,30 --length 36 --unit in --nut-limits -2..2");
    let path = shop.path().join("p.jawtrue");
    let before = fs::read(&path).unwrap();
    shop.refuses_all(
        r"
record p.jawtrue --readings '0.25, 0.25'
    --readings: 3 measuring points are needed, separated by commas, from the left (A, B, C); there are 2. Leave the place of a point empty if it was not measured.
record p.jawtrue --readings '0.25, 0.25 thick, 0.25'
    B, reading 2: must be a length such as 0.2475; “thick” is not.
record p.jawtrue --readings '0.25, 0.25, -0.25'
    C, reading 1: no plus or minus sign here; write a length such as 0.2475.
record p.jawtrue --readings '0.25, 0.123456789123, 0.25'
    B, reading 1: too many digits (finer than 0.000001 mm). Type fewer.
record p.jawtrue --readings '0.25, 25, 0.25'
    B, reading 1: must be 0.00394″ to 19.68504″; this is 25″.
record p.jawtrue --readings '0.25,0.25,0.25' --turned 1,1
    --turned: 3 values are needed, separated by commas, one per arm; there are 2.
record p.jawtrue --readings '0.25,0.25,0.25' --turned 0,1.5,0
    --turned: must be a whole number such as -4 or +2; “1.5” is not.
record p.jawtrue --readings '0.25,0.25,0.25' --turned 0,++1,0
    --turned: must be a whole number such as -4 or +2; “++1” is not.
record p.jawtrue --readings '0.25,0.25,0.25' --turned 0,300,0
    Nut position in notches from flush: must be -200 to 200; this is 300.
record missing.jawtrue --readings 1,2
    There is no such file or folder. File: missing.jawtrue
",
    );
    assert_eq!(fs::read(&path).unwrap(), before);
    // Taken, but remarked on: another unit, and a nut beyond its limits.
    let odd = shop.run("record p.jawtrue --readings '0.25, 6.29, 0.249' --turned 0,3,0");
    assert_eq!(odd.status, 0);
    assert_eq!(
        odd.err,
        "B, reading 1: 6.29″ can't be right here. It looks like 6.29 mm.\nThe nut of arm B is at 3, outside its limits -2 to 2. Check the position.\n"
    );
}

/// Other programs are told of a nut beyond its limits, too.
#[test]
fn a_nut_outside_its_limits_is_in_the_line_of_a_plan() {
    let shop = Shop::new();
    let new = "new p.jawtrue --arms 6,18,30 --length 36 --unit in --nut-limits=-6..6";
    let made = shop.run(&format!("{new} --nuts 9,0,-7"));
    assert_eq!(made.status, 0, "{}", made.err);
    let plan = |readings: &str| -> serde_json::Value {
        let recorded = shop.run(&format!("record p.jawtrue --readings '{readings}'"));
        assert_eq!(recorded.status, 0, "{}", recorded.err);
        serde_json::from_str(&shop.out("plan --json p.jawtrue")).unwrap()
    };
    let beyond = serde_json::json!(["A", "C"]);
    assert_eq!(plan("0.2500,0.2550,0.2500")["outside_limits"], beyond);
    // Before anything can be planned, too.
    assert_eq!(plan("0.2500,,0.2500")["outside_limits"], beyond);
    shop.lay("within.jawtrue", &["0.2500", "0.2550", "0.2500"]);
    assert!(
        !shop
            .out("plan --json within.jawtrue")
            .contains("outside_limits")
    );
}

/// What is missing or doubtful is answered, in order, before any turn.
#[test]
fn what_is_missing_or_doubtful_is_measured_first() {
    let shop = Shop::new();
    let turns = |line: &str| line.contains("\"turns\":[0,0,0],");
    shop.lay("p.jawtrue", &["0.2500", "", "0.2450"]);
    let told = shop.out("plan p.jawtrue");
    assert!(
        told.contains("Already outside the tolerance. Still to measure: B."),
        "{told}"
    );
    assert!(!told.contains("OUT"), "{told}");
    let line = shop.out("plan --json p.jawtrue");
    let begins = "{\"file\":\"p.jawtrue\",\"unit\":\"in\",\"action\":\"measure\",\
                  \"missing\":[\"B\"],\"doubtful\":[],";
    assert!(line.starts_with(begins) && turns(&line), "{line}");
    shop.lay("q.jawtrue", &["0.2500", "", "0.2480"]);
    let told = shop.out("judge q.jawtrue");
    assert!(
        told.contains("Not judged yet. Still to measure: B."),
        "{told}"
    );
    let line = shop.out("judge --json q.jawtrue");
    assert!(line.contains("\"inside\":false"), "{line}");
    assert!(
        line.contains("\"missing\":[\"B\"],\"doubtful\":[]"),
        "{line}"
    );

    shop.lay("r.jawtrue", &["0.2500", "0.2490", "2.500 abc"]);
    let doubtful = "\"missing\":[],\"doubtful\":[\
                    {\"station\":\"C\",\"reading\":1,\"likely\":\"0.2500 in\"},\
                    {\"station\":\"C\",\"reading\":2}]";
    for command in ["judge", "plan"] {
        let line = shop.out(&format!("{command} --json r.jawtrue"));
        assert!(line.contains(doubtful), "{line}");
        let told = shop.out(&format!("{command} r.jawtrue"));
        assert!(told.contains("It looks like 0.2500″."), "{told}");
        assert!(told.contains("“abc” is not"), "{told}");
    }
    assert!(turns(&shop.out("plan --json r.jawtrue")));
    shop.lay("s.jawtrue", &["", "", ""]);
    let line = shop.out("plan --json s.jawtrue");
    assert!(line.contains("\"missing\":[\"A\",\"B\",\"C\"]"), "{line}");
    // Clear again, both lists are empty.
    shop.lay("t.jawtrue", &["0.2500", "0.2440", "0.2500"]);
    let line = shop.out("plan --json t.jawtrue");
    let clear = "\"action\":\"turn\",\"missing\":[],\"doubtful\":[],";
    assert!(line.contains(clear), "{line}");
}

#[test]
fn every_command_has_help_in_both_languages() {
    let shop = Shop::new();
    for command in ["", "new", "record", "judge", "plan"] {
        let english = shop.out(&format!("{command} --help"));
        let spanish = shop.out(&format!("{command} --help --language=es"));
        // Help ends the reading of options: what follows is not looked at.
        let spanish_too = shop.out(&format!("--language es {command} -h"));
        assert_ne!(english, spanish);
        assert_eq!(spanish, spanish_too);
        assert!(
            english.starts_with(&format!("jawtrue {command}").replace("jawtrue  ", ""))
                || command.is_empty()
        );
        for option in english
            .split_whitespace()
            .filter(|word| word.starts_with("--"))
        {
            let option = option.trim_end_matches([',', ']', ';']);
            assert!(spanish.contains(option), "{command}: {option}");
        }
        let widest = spanish.lines().map(|line| line.chars().count()).max();
        assert!(widest <= Some(90), "{command}: {widest:?}");
    }
    let said = format!(
        "jawtrue {} (formats: session 1, press 1, lesson 2, upkeep 3; build: ",
        env!("CARGO_PKG_VERSION")
    );
    assert!(shop.out("--version").starts_with(&said));
}

#[test]
fn the_systems_language_is_spoken() {
    let shop = Shop::new();
    for (variables, word) in [
        (vec![("LANG", "es_MX.UTF-8")], "Falta el nombre"),
        (vec![("LANG", "de_DE.UTF-8")], "The name of"),
        (
            vec![("LC_ALL", ""), ("LC_MESSAGES", "es"), ("LANG", "en_US")],
            "Falta el nombre",
        ),
        (vec![("LC_ALL", "C"), ("LANG", "es_ES")], "The name of"),
    ] {
        let mut program = program();
        let output = program
            .envs(variables.clone())
            .arg("judge")
            .output()
            .unwrap();
        let told = ran(output).err;
        assert!(told.starts_with(word), "{variables:?}: {told}");
    }
    shop.lay("p.jawtrue", &["0.2500", "0.2445"]);
    let told = shop.out("judge p.jawtrue --language es");
    assert!(
        told.contains("Diferencia máxima 0.0055″, límite 0.003″."),
        "{told}"
    );
}

#[test]
fn without_a_display_the_same_comes_as_text() {
    let shop = Shop::new();
    let told = shop.run("");
    assert_eq!(told.status, 0, "{told:?}");
    assert!(
        told.err.starts_with("No window can be opened here"),
        "{told:?}"
    );
    assert!(told.out.contains("Elm Row shop (invented)"), "{told:?}");
    assert!(told.out.contains("B  OUT 3 notches"), "{told:?}");
    shop.lay("p.jawtrue", &["0.2500", "0.2470"]);
    let told = shop.run("p.jawtrue");
    assert_eq!(told.status, 0, "{told:?}");
    assert!(
        told.out
            .starts_with("p.jawtrue, Press 9 (invented), pass 1 of 1"),
        "{told:?}"
    );
    assert!(told.out.contains("leave the nuts alone"), "{told:?}");
    let told = shop.run("frobnicate");
    assert_eq!((told.status, told.out.as_str()), (2, ""));
    assert!(
        told.err
            .ends_with("There is no such file or folder. File: frobnicate\n"),
        "{told:?}"
    );
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_written_is_a_failure() {
    let shop = Shop::new();
    shop.lay("p.jawtrue", &["0.2500", "0.2470"]);
    let full = fs::File::options().write(true).open("/dev/full").unwrap();
    let output = program()
        .current_dir(shop.path())
        .args(["judge", "p.jawtrue", "p.jawtrue"])
        .stdout(Stdio::from(full))
        .output()
        .unwrap();
    let told = ran(output);
    assert_eq!(told.status, 2);
    assert_eq!(
        told.err,
        "The answer could not be written. The disk is full. Make room and try again.\n"
    );
    // A reader that has seen enough is no failure.
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let output = program()
        .current_dir(shop.path())
        .args(["judge", "p.jawtrue"])
        .stdout(Stdio::from(writer))
        .output()
        .unwrap();
    assert_eq!(ran(output).status, 0);
}

#[test]
fn what_is_told_of_a_new_session_is_kept() {
    let shop = Shop::new();
    shop.out(&format!(
        "{NEW} --who 'R. Alder' --when 2026-11-25 --belt 'Belt 7' --hooks 'Hook 3' \
         --notes 'second shift' --gauge 'Micrometer 2'"
    ));
    let session = shop.open("p.jawtrue");
    let notes = &session.notes;
    let texts = [
        &notes.who,
        &notes.when,
        &notes.belt,
        &notes.hooks,
        &notes.notes,
    ];
    let told = ["R. Alder", "2026-11-25", "Belt 7", "Hook 3", "second shift"];
    assert_eq!(texts, told);
    assert_eq!(session.gauge.name, "Micrometer 2");
}
