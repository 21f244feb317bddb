//! Readings from CSV files: all of them, or none and every wrong place.

use jawtrue::store::{
    CsvCellWrong, CsvColumns, CsvProblem, CsvReading, MOST_PROBLEMS, readings_from_csv,
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
        reading: 0,
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
    // A decimal comma between commas.
    let found = wrong("arm,reading\nA,0,2475\n");
    assert!(
        matches!(
            &found[..],
            [(2, 3, BeyondLastColumn(_)), (2, 2, OutOfBounds(_))]
        ),
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
    assert_eq!(
        read_with("0.25,0.26\n", None, true),
        header(&["0.25", "0.26"])
    );
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
