//! Readings from CSV files: all of them, or none and every wrong place.

use jawtrue::store::{
    CsvCellWrong, CsvColumns, CsvFound, CsvProblem, CsvReading, MOST_PROBLEMS, readings_from_csv,
};
use jawtrue::units::{LengthProblem, Unit};

fn read_with(
    text: &str,
    columns: Option<CsvColumns>,
    has_header: bool,
) -> Result<Vec<Vec<String>>, CsvProblem> {
    let stations = ["A", "B", "B+6", "C"].map(str::to_owned);
    let reading = CsvReading {
        stations: &stations,
        bare: Unit::Inch,
        columns,
        has_header,
    };
    readings_from_csv(text, &reading).map(|found| found.rows)
}

/// What is read in millimetres on a press with arms A, B, C.
fn metric(text: &str) -> Result<CsvFound, CsvProblem> {
    let stations = ["A", "B", "C"].map(str::to_owned);
    let reading = CsvReading {
        stations: &stations,
        bare: Unit::Millimetre,
        columns: None,
        has_header: true,
    };
    readings_from_csv(text, &reading)
}

/// Cells by station, parted by blanks and bars.
fn check(text: &str, expected: &str) {
    let rows = read_with(text, None, true).unwrap_or_else(|problem| panic!("{text}: {problem:?}"));
    let rows: Vec<String> = rows.iter().map(|row| row.join(" ")).collect();
    assert_eq!(rows.join(" | "), expected, "{text}");
}

/// Line and column of every wrong place.
fn wrong(text: &str) -> Vec<(u64, usize, CsvCellWrong)> {
    match read_with(text, None, true) {
        Err(CsvProblem::Cells(problems)) => {
            let places = problems.into_iter();
            places
                .map(|place| (place.line, place.column, place.why))
                .collect()
        }
        other => panic!("{text}: {other:?}"),
    }
}

#[test]
fn a_row_per_reading() {
    check(
        "arm,reading\nA,0.2500\nB,.2475\nA,0.2505\nb+6,0.2490\nC,1/4\n",
        "0.2500 in 0.2505 in | .2475 in | 0.2490 in | 1/4 in",
    );
    check(
        "\u{feff}Brazo;Lectura;Unidad\r\nA;6,35;mm\r\n\r\nc;0,25;in\r\n",
        "6,35 mm |  |  | 0,25 in",
    );
    check(
        "note\tUnit\tReading\tStation\n\"first, \"\"cold\"\"\"\tmm\t6.35\tA\n",
        "6.35 mm |  |  | ",
    );
}

#[test]
fn a_column_per_arm() {
    check(
        "A,B,C\n0.2500,0.2475,0.2510\n0.2505,,0.2505\n",
        "0.2500 in 0.2505 in | 0.2475 in |  | 0.2510 in 0.2505 in",
    );
    check("round,c,a\n1,6.35 mm,6.36mm\n", "6.36mm |  |  | 6.35 mm");
}

#[test]
fn columns_mapped_by_hand() {
    let columns = CsvColumns::ByColumn(vec![None, Some(3), Some(0)]);
    let rows = read_with("x,.25,.26\ny,.27,\n", Some(columns), false).unwrap();
    assert_eq!(
        rows,
        [vec![".26 in"], vec![], vec![], vec![".25 in", ".27 in"]]
    );
    let columns = CsvColumns::ByRow {
        station: 1,
        readings: vec![0],
        unit: None,
    };
    let rows = read_with("dim,where\n.25,B\n", Some(columns.clone()), true).unwrap();
    assert_eq!(rows[1], [".25 in"]);
    assert_eq!(
        read_with("a\n", Some(columns), false),
        Err(CsvProblem::NoSuchColumn(1))
    );
    let nothing = Some(CsvColumns::ByColumn(vec![None]));
    assert_eq!(
        read_with("a\n", nothing, false),
        Err(CsvProblem::NoSuchColumn(0))
    );
    // A station that the press does not have.
    let columns = CsvColumns::ByColumn(vec![Some(9)]);
    assert!(read_with(".25\n", Some(columns), false).is_err());
}

/// The same three readings as programs of several countries write them.
#[test]
fn decimal_commas_are_read_whatever_parts_the_columns() {
    for text in [
        "arm;reading\nA;6,29\nB;6,31\nC;6,3\n",
        "arm\treading\nA\t6,29\nB\t6,31\nC\t6,3\n",
        "arm,reading\nA,\"6,29\"\nB,\"6,31\"\nC,\"6,3\"\n",
        "arm,reading\nA,6,29\nB,6,31\nC,6,3\n",
        "arm,reading,unit\nA,6,29,mm\nB,6,31,mm\nC,6,3,\n",
        "reading,arm\n6,29,A\n6,31,B\n6,3,C\n",
        "arm,reading\nA,6,29 mm\nB,6,31 mm\nC,6,3 mm,\n",
        "A;B;C\n6,29;6,31;6,3\n",
        "A,B,C\n6,29,6,31,6,3\n",
        "round,A,B,C\n1,6,29,6,31,6,3\n",
    ] {
        let found = metric(text).unwrap_or_else(|problem| panic!("{text}: {problem:?}"));
        assert_eq!(found.rows, [["6,29 mm"], ["6,31 mm"], ["6,3 mm"]], "{text}");
        let cut = !text.contains([';', '\t', '"']);
        let said = cut.then_some("6,29");
        assert_eq!(
            found
                .decimal_comma
                .as_deref()
                .map(|first| first.trim_end_matches(" mm")),
            said,
            "{text}"
        );
        assert!(found.left_out.is_empty());
    }
}

/// Where the shape of the rows proves nothing, nothing is read: never 6.
#[test]
fn what_may_be_a_decimal_comma_is_refused() {
    let refused = |text: &str| match metric(text) {
        Err(CsvProblem::Cells(places)) => places,
        other => panic!("{text}: {other:?}"),
    };
    for (text, line, column) in [
        // The field behind it may be the half of the number or a note.
        ("arm,reading,note\nA,6,29\nB,6,31\n", 2, 2),
        ("arm,reading,note\nA,6.29,\nB,6,31\n", 3, 2),
        ("arm,reading,reading\nA,6,29\nB,6,31\n", 2, 2),
        ("A,B,C\n6,29,\n", 2, 1),
    ] {
        let places = refused(text);
        let first = &places[0];
        assert!(matches!(first.why, CsvCellWrong::DecimalComma(_)), "{text}");
        assert_eq!((first.line, first.column), (line, column), "{text}");
    }
    // Some rows have a field more, others not.
    refused("arm,reading\nA,6,29\nB,6.31\n");
    refused("arm,reading\nA,6,29\nB,7\n");
    refused("A,B,C\n6,29,6,31\n");
    // The columns are named by hand and there is no header to count by.
    let columns = CsvColumns::ByRow {
        station: 0,
        readings: vec![1],
        unit: None,
    };
    for text in ["A,6,29\nB,6,31\n", "A,6.29\nB,6,31\n"] {
        assert!(read_with(text, Some(columns.clone()), false).is_err());
    }
    // A column that counts rounds is none of it, and whole numbers may be
    // written with a point.
    let found = metric("arm,reading,round\nA,6,1\nB,7,1\n").unwrap();
    assert_eq!(found.rows[1], ["7 mm"]);
    let found = metric("A,B,C\n6.0,6.0,6.0\n").unwrap();
    assert_eq!(found.rows[2], ["6.0 mm"]);
}

#[test]
fn a_second_column_of_readings_is_a_second_repeat() {
    for header in [
        "arm,reading,reading",
        "arm,reading 1,Reading 2",
        "brazo,lectura,lectura2",
    ] {
        let found = metric(&format!("{header}\nA,6.29,6.30\nB,6.31,\nA,6.28,6.27\n")).unwrap();
        assert_eq!(
            found.rows,
            [
                vec!["6.29 mm", "6.30 mm", "6.28 mm", "6.27 mm"],
                vec!["6.31 mm"],
                vec![]
            ]
        );
    }
    // Decimal commas in both.
    let found = metric("arm,reading,reading\nA,6,29,6,30\nB,6,31,6,32\n").unwrap();
    assert_eq!(found.rows[1], ["6,31 mm", "6,32 mm"]);
    // Nothing in either.
    assert!(metric("arm,reading,reading\nA,,\n").is_err());
    // Other columns are left out, and it is said.
    let found = metric("arm,reading,who,round,note\nA,6.29,x,1,cold\n").unwrap();
    assert_eq!(found.left_out, ["who", "note"]);
}

/// A unit in the cell and in the column beside it: the same is no mistake, and
/// of two different ones neither is guessed.
#[test]
fn a_unit_may_stand_in_the_cell_and_beside_it() {
    check(
        "arm,reading,unit\nA,6.30 mm,mm\nB,0.25in,inch\nC,250thou,thou\n",
        "6.30 mm | 0.25in |  | 250thou",
    );
    let found = wrong("arm,reading,unit\nA,6.30 mm,in\nB,0.25,\nC,250 thou,in\n");
    let [(2, 2, first), (4, 2, CsvCellWrong::TwoUnits(own, beside))] = &found[..] else {
        panic!("{found:?}");
    };
    assert_eq!((own.as_str(), beside.as_str()), ("thou", "in"));
    assert_eq!(*first, CsvCellWrong::TwoUnits("mm".into(), "in".into()));
}

#[test]
fn every_wrong_place_is_told_and_nothing_is_read() {
    use CsvCellWrong::{
        BeyondLastColumn, Length, Missing, OutOfBounds, SecondColumn, TooManyReadings,
        UnknownStation,
    };
    let found =
        wrong("arm,reading,unit\nA,0.2500,in\nD,thick,in\n,0.25,\nB,,mm\nB,0.25,cm\nC,900,mm\n");
    assert!(
        matches!(
            &found[..],
            [
                (3, 1, UnknownStation(name)),
                (3, 2, Length(LengthProblem::NotANumber(_))),
                (4, 1, Missing),
                (5, 2, Missing),
                (6, 2, Length(LengthProblem::UnknownUnit(_))),
                (7, 2, OutOfBounds(_)),
            ] if name == "D"
        ),
        "{found:?}"
    );
    let found = wrong("arm,reading\nA,0.2475,x\n");
    assert!(
        matches!(&found[..], [(2, 3, BeyondLastColumn(_))]),
        "{found:?}"
    );
    let found = wrong("A,B,E\n.25,.25,.25\n");
    assert_eq!(found, [(1, 3, UnknownStation("E".to_owned()))]);
    let found = wrong("A,B,a\n.25,.25,.25\n");
    assert_eq!(found, [(1, 3, SecondColumn("A".to_owned()))]);
    let many = format!("A\n{}", ".25\n".repeat(1_001));
    assert_eq!(wrong(&many), [(1_002, 1, TooManyReadings)]);
    let bad = format!("A\n{}", "x\n".repeat(5_000));
    assert_eq!(wrong(&bad).len(), MOST_PROBLEMS);
}

/// What people paste: an arm and its readings a line, or readings alone in
/// the order of the stations.
#[test]
fn lines_without_columns() {
    let two = "0.25 in 0.2505 in | .2475 in | 0.249 in | 0.25 in";
    for text in [
        "A,0.25,0.2505\nB,.2475\nB+6,0.249\nC,0.25",
        "A 0.25 0.2505\n\nB .2475\nB+6 0.249\nC 0.25\n",
        "Arm A: 0.25, 0.2505\nArm B: .2475\nB+6: 0.249\nArm C: 0.25",
        "a = 0.25; 0.2505\nb = .2475\nb+6 = 0.249\nc = 0.25",
        "A) 0.25\nB) .2475\nB+6) 0.249\nC) 0.25\nA) 0.2505",
        "A\t0.25\t0.2505\nB\t.2475\nB+6\t0.249\nC\t0.25",
        "Press 3, Thursday\nA 0.25 0.2505\nB .2475\nB+6 0.249\nC 0.25",
        "Arm Reading\nA 0.25 0.2505\nB .2475\nB+6 0.249\nC 0.25",
        "arm,1,2\nA,0.25,0.2505\nB,.2475\nB+6,0.249\nC,0.25",
        "arm;thickness (in)\nA;0.25\nB;.2475\nB+6;0.249\nC;0.25\nA;0.2505",
    ] {
        check(text, two);
    }
    let round = "0.25 in | 0.26 in | 0.27 in | 0.28 in";
    for text in [
        "0.25 0.26 0.27 0.28",
        "0.25, 0.26, 0.27, 0.28",
        "0.25\t0.26\t0.27\t0.28",
        "0.25\n0.26\n0.27\n0.28\n",
        "A B B+6 C\n0.25 0.26 0.27 0.28",
        "C B+6 B A\n0.28 0.27 0.26 0.25",
    ] {
        check(text, round);
    }
    check(
        "0.25 0.25\n0.26 0.261\n0.27 0.27\n0.28 0.28",
        "0.25 in 0.25 in | 0.26 in 0.261 in | 0.27 in 0.27 in | 0.28 in 0.28 in",
    );
    // Units beside the readings, or in the heading.
    let units = "6.35 mm 6.36 mm | 247 thou |  | ";
    check("A 6.35 mm 6.36 mm\nB 247 thou", units);
    check("Arm,Readings (mm)\nA,6.35,6.36\nB,247 thou", units);
}

#[test]
fn decimal_commas_in_lines_without_columns() {
    let rows = |text| metric(text).map(|found| found.rows);
    let expected = [
        ["6,29 mm", "6,30 mm"],
        ["6,31 mm", "6,32 mm"],
        ["6,33 mm", "6,34 mm"],
    ];
    for text in [
        "A 6,29 6,30\nB 6,31 6,32\nC 6,33 6,34",
        "A: 6,29; 6,30\nB: 6,31; 6,32\nC: 6,33; 6,34",
        "6,29, 6,31, 6,33\n6,30, 6,32, 6,34",
    ] {
        assert_eq!(
            rows(text),
            Ok(expected.map(|row| row.map(str::to_owned).to_vec()).to_vec())
        );
    }
    // 6 and 29, or 6.29?
    for text in ["A,6,29\nB,6,31\nC,6,33", "A 6,29 6.30"] {
        let found = metric(text);
        let Err(CsvProblem::Cells(problems)) = &found else {
            panic!("{text}: {found:?}");
        };
        assert!(matches!(&problems[0].why, CsvCellWrong::DecimalComma(cut) if cut == "6,29"));
    }
}

#[test]
fn wrong_places_in_lines_without_columns() {
    use CsvCellWrong::{Length, Missing, OutOfBounds, UnknownStation};
    let found = wrong("A 0.25\nD 0.25\n0.26\nB 0.2o5 900");
    assert!(
        matches!(
            &found[..],
            [
                (2, 1, UnknownStation(name)),
                (3, 1, Missing),
                (4, 2, Length(_)),
                (4, 3, OutOfBounds(_)),
            ] if name == "D"
        ),
        "{found:?}"
    );
    // A wrong first line is not taken for a heading.
    assert!(matches!(&wrong("A o.25\nB 0.25")[..], [(1, 2, Length(_))]));
    // Columns that may be no readings are left to be named by hand.
    for text in [
        "arm,nominal,actual\nA,0.25,0.2505\nB,0.25,0.2475",
        "place date thick\nA 2026-11-25 0.25",
    ] {
        let found = read_with(text, None, true);
        assert!(
            matches!(found, Err(CsvProblem::Header(_))),
            "{text}: {found:?}"
        );
    }
}

#[test]
fn files_that_are_none() {
    for empty in ["", "\n\n", "\u{feff}", ",,,\n"] {
        assert_eq!(
            read_with(empty, None, true),
            Err(CsvProblem::Empty),
            "{empty:?}"
        );
    }
    let header = |fields: &[&str]| {
        Err(CsvProblem::Header(
            fields.iter().map(|&field| field.to_owned()).collect(),
        ))
    };
    let unnamed = |found| Err(CsvProblem::Unnamed { found, stations: 4 });
    assert_eq!(read_with("0.25,0.26\n", None, true), unnamed(2));
    // Four rounds of four, or four stations read four times?
    let square = "0.25 0.25 0.25 0.25\n".repeat(4);
    assert_eq!(read_with(&square, None, true), unnamed(16));
    assert_eq!(
        read_with("A,width\n.25,3\n", None, true),
        header(&["A", "width"])
    );
    assert_eq!(read_with("round\n1\n", None, true), header(&["round"]));
    // A header alone holds no reading, which is no mistake of the file.
    check("arm,reading\n", " |  |  | ");
    // An open quote swallows the rest and is then no thickness.
    assert!(read_with("A\n\".25\n.26\n", None, true).is_err());
    let binary: String = (0..2_000_u32).filter_map(char::from_u32).collect();
    assert!(read_with(&binary, None, true).is_err());
}
