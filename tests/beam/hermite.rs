//! The same beam by textbook means: Hermite cubic elements with a consistent
//! foundation matrix (Przemieniecki, Theory of Matrix Structural Analysis),
//! one dense matrix, Gaussian elimination with row exchanges. Slow, and good
//! to about 1e-8 on a fine mesh of ordinary proportions.

use jawtrue::press::beam::Beam;

/// Deflections and slopes of the nodes of a mesh of `elements` equal elements
/// and springs at nodes only.
pub fn nodal_motions(beam: &Beam, movements: &[f64], elements: usize) -> Vec<[f64; 2]> {
    let h = (beam.right_end - beam.left_end) / elements as f64;
    let node_of = |x: f64| {
        let share = (x - beam.left_end) / h;
        assert!((share - share.round()).abs() < 1e-6, "{x} is not a node");
        share.round() as usize
    };
    let size = 2 * (elements + 1);
    let mut matrix = vec![vec![0.0; size]; size];
    let mut load = vec![0.0; size];
    for element in 0..elements {
        let middle = beam.left_end + (element as f64 + 0.5) * h;
        let section = beam.sections.iter().rev().find(|s| s.from <= middle);
        let ei = section
            .expect("the first section begins at the left")
            .rigidity;
        let bending = [
            [12.0, 6.0 * h, -12.0, 6.0 * h],
            [6.0 * h, 4.0 * h * h, -6.0 * h, 2.0 * h * h],
            [-12.0, -6.0 * h, 12.0, -6.0 * h],
            [6.0 * h, 2.0 * h * h, -6.0 * h, 4.0 * h * h],
        ];
        let ground = [
            [156.0, 22.0 * h, 54.0, -13.0 * h],
            [22.0 * h, 4.0 * h * h, 13.0 * h, -3.0 * h * h],
            [54.0, 13.0 * h, 156.0, -22.0 * h],
            [-13.0 * h, -3.0 * h * h, -22.0 * h, 4.0 * h * h],
        ];
        for row in 0..4 {
            for column in 0..4 {
                matrix[2 * element + row][2 * element + column] += ei / (h * h * h)
                    * bending[row][column]
                    + beam.foundation * h / 420.0 * ground[row][column];
            }
        }
    }
    for (spring, movement) in beam.springs.iter().zip(movements) {
        let node = node_of(spring.position);
        matrix[2 * node][2 * node] += spring.stiffness;
        load[2 * node] += spring.stiffness * movement;
    }
    for point in &beam.loads {
        load[2 * node_of(point.position)] += point.force;
    }
    let solution = eliminate(matrix, load);
    solution.chunks(2).map(|pair| [pair[0], pair[1]]).collect()
}

fn eliminate(mut matrix: Vec<Vec<f64>>, mut load: Vec<f64>) -> Vec<f64> {
    let size = load.len();
    for column in 0..size {
        let pivot = (column..size)
            .max_by(|&a, &b| matrix[a][column].abs().total_cmp(&matrix[b][column].abs()))
            .expect("a row is left");
        matrix.swap(column, pivot);
        load.swap(column, pivot);
        for row in column + 1..size {
            let factor = matrix[row][column] / matrix[column][column];
            if factor != 0.0 {
                let (above, below) = matrix.split_at_mut(row);
                for (x, p) in below[0].iter_mut().zip(&above[column]).skip(column) {
                    *x -= factor * p;
                }
                load[row] -= factor * load[column];
            }
        }
    }
    for row in (0..size).rev() {
        let known: f64 = (row + 1..size).map(|c| matrix[row][c] * load[c]).sum();
        load[row] = (load[row] - known) / matrix[row][row];
    }
    load
}
