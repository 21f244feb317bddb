/// P(range <= limit) of independent normal values with scatter: value i is the
/// smallest and all others lie within the limit above it (David & Nagaraja, Order
/// Statistics, 3rd ed., Wiley 2003, section 2.3, with unequal distributions),
/// summed by the trapezoidal rule, whose error is beyond any digit here.
pub fn range_probability(values: &[NormalValue], limit: f64) -> f64 {
    let ends = |by: f64| values.iter().map(move |v| v.mean + by * v.sd);
    let low = ends(-9.0).fold(f64::INFINITY, f64::min);
    let high = ends(9.0).fold(f64::NEG_INFINITY, f64::max);
    let step = values.iter().map(|v| v.sd).fold(f64::INFINITY, f64::min) / 8.0;
    let at = |v: &NormalValue, x: f64| (x - v.mean) / v.sd;
    let smallest = |i: usize, x: f64| -> f64 {
        let others = values.iter().enumerate().filter(|(j, _)| *j != i);
        let within = others.map(|(_, v)| normal_cdf(at(v, x + limit)) - normal_cdf(at(v, x)));
        normal_pdf(at(&values[i], x)) / values[i].sd * within.product::<f64>()
    };
    let nodes = 0..((high - low) / step) as u32;
    let at_node = |node| low + step * f64::from(node);
    let sums = nodes.map(|node| (0..values.len()).map(|i| smallest(i, at_node(node))).sum::<f64>());
    step * sums.sum::<f64>()
}
