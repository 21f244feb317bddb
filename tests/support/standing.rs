/// How things stand with the nuts as they are.
#[derive(Debug)]
struct Standing {
    /// Of the last piece; `None` when a counting station was not read.
    this_piece: Option<f64>,
    this_press: f64,
    #[allow(dead_code)]
    next_piece: f64,
}

fn standing(
    posterior: &Posterior,
    counting: &[usize],
    tolerance_nm: f64,
    scratch: &mut PredictiveScratch,
) -> Result<Standing, PlanError> {
    let piece = Piece::last(posterior, counting, &mut jawtrue::stats::Kept::default());
    let whole = piece.filter(|piece| piece.stations().len() == counting.len());
    let (this_press, next_piece) = press_chances(posterior, counting, tolerance_nm, scratch)?;
    Ok(Standing {
        this_piece: whole.and_then(|piece| piece.chance_as_read(tolerance_nm)),
        this_press,
        next_piece,
    })
}
