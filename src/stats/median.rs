//! The median.

/// The middle value; halfway between the two in the middle of an even number.
/// None of none.
pub fn median(values: impl IntoIterator<Item = f64>) -> Option<f64> {
    let mut sorted: Vec<f64> = values.into_iter().collect();
    sorted.sort_by(f64::total_cmp);
    let upper = *sorted.get(sorted.len() / 2)?;
    let lower = *sorted.get(sorted.len().checked_sub(1)? / 2)?;
    Some(lower + (upper - lower) / 2.0)
}
