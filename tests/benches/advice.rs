//! How long advising takes. `cargo bench --bench advice`
//!
//! Sessions of simulated presses, the earlier passes read with a gauge of
//! 0.0005 in: milliseconds for one piece of advice after two passes, its prior
//! on the shelf; for the prior itself; for a forecast and a predicted profile
//! while a nut is dragged; and many sessions on two threads. Means and the many
//! sessions are timed on the processor where the system tells that.

use std::time::Instant;

use jawtrue::press::{Arm, Notches, Press};
use jawtrue::session::{Advice, AdviceWorkspace, Edit, PressRecord, PriorShelf, Session, Wishes};
use jawtrue::stats::{Draws, Purpose};
use jawtrue::units::{Length, TypedLength, Unit};

fn inches(value: f64) -> TypedLength {
    let length = Length::from_nm((value * 25.4e6).round() as i64);
    TypedLength::from_length(length, Unit::Inch)
}

fn press(arms: usize, spacing_in: f64) -> Press {
    let arm = |index: usize| Arm::new(inches(5.0 + spacing_in * index as f64), inches(0.004));
    Press::new(
        "",
        inches(10.0 + spacing_in * (arms - 1) as f64),
        (0..arms).map(arm),
    )
}

/// Two passes on a press that answers with four parts at the arm and one at
/// each neighbour.
fn lace(start: Session, draws: &mut Draws) -> Session {
    let arms = start.press.arms.len();
    let profile: Vec<f64> = (0..arms).map(|_| 0.25 + 0.004 * draws.normal()).collect();
    let mut session = start;
    let mut nuts = vec![0.0; arms];
    for pass in 0..2 {
        let turns: Vec<Notches> = (0..arms)
            .map(|_| {
                Notches(if pass == 0 {
                    0
                } else {
                    draws.below(4) as i32 - 1
                })
            })
            .collect();
        for (nut, turn) in nuts.iter_mut().zip(&turns) {
            *nut += f64::from(turn.0);
        }
        let rows = (0..arms).map(|s| {
            let beside = [s.checked_sub(1), (s + 1 < arms).then_some(s + 1)];
            let beside: f64 = beside.iter().flatten().map(|i| nuts[*i]).sum();
            let true_in = profile[s] + 0.0028 * nuts[s] + 0.0007 * beside;
            let read = |draws: &mut Draws| (true_in + 0.0004 * draws.normal()) / 0.0005;
            vec![format!("{:.4}", read(draws).round() * 0.0005); 2]
        });
        let rows = rows.collect();
        let laced = String::new();
        let edits = [
            Edit::add_pass(turns, laced),
            Edit::fill((pass, 0, 0), rows, Unit::Inch),
        ];
        for edit in &edits {
            session = session.edited(edit).expect("a sound edit");
        }
    }
    session
}

fn session(id: u64, press: Press) -> Session {
    let mut draws = Draws::new(Purpose::Simulation(id));
    lace(Session::new(id.to_string(), Unit::Inch, press), &mut draws)
}

fn advise(session: &Session, shelf: &PriorShelf, workspace: &mut AdviceWorkspace) -> Advice {
    session
        .advise(1, Wishes::default(), shelf, workspace)
        .expect("advice")
}

/// Median and 99th percentile, in milliseconds.
fn percentiles(mut times_ms: Vec<f64>) -> (f64, f64) {
    times_ms.sort_by(f64::total_cmp);
    let at = |share: f64| times_ms[(share * (times_ms.len() - 1) as f64) as usize];
    (at(0.5), at(0.99))
}

/// Time this thread has had on a processor, so that other work on the machine
/// does not count; `None` where the system does not tell.
fn on_processor_ms() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let ns: f64 = text.split_whitespace().next()?.parse().ok()?;
    Some(ns / 1e6)
}

fn timed_ms(work: impl FnOnce()) -> f64 {
    let begin = Instant::now();
    work();
    begin.elapsed().as_secs_f64() * 1e3
}

/// Time on the processor, for work that takes many of its clock's ticks.
fn busy_ms(work: impl FnOnce()) -> f64 {
    let begin = on_processor_ms();
    let elapsed_ms = timed_ms(work);
    let busy_ms = begin.zip(on_processor_ms()).map(|(begin, end)| end - begin);
    busy_ms.unwrap_or(elapsed_ms)
}

fn main() {
    println!(
        "arms  advice ms (mean, median, 99 %)  prior ms  forecaster, forecast, predicted ms  findings ms  after 10 visits, again ms"
    );
    for (arms, count) in [(4, 400), (6, 200), (12, 60)] {
        let shelf = PriorShelf::default();
        let mut workspace = AdviceWorkspace::default();
        let first = session(0, press(arms, 11.0));
        let prior_ms = timed_ms(|| {
            advise(&first, &shelf, &mut workspace);
        });
        let sessions: Vec<Session> = (1..=count)
            .map(|id| session(id, press(arms, 11.0)))
            .collect();
        let mut times = Vec::new();
        let mean_ms = busy_ms(|| {
            for session in &sessions {
                times.push(timed_ms(|| {
                    advise(session, &shelf, &mut workspace);
                }));
            }
        }) / count as f64;
        let (median, most) = percentiles(times);
        let advice = advise(&first, &shelf, &mut workspace);
        let mut forecaster = None;
        let forecaster_ms = timed_ms(|| forecaster = advice.forecaster().ok());
        let mut forecaster = forecaster.expect("a forecaster");
        let mut turns = vec![0; arms];
        let forecasts = (0..100).map(|step| {
            turns[step % arms] = step as i32 % 5 - 2;
            timed_ms(|| {
                std::hint::black_box(forecaster.forecast(&turns));
            })
        });
        let (forecast_ms, _) = percentiles(forecasts.collect());
        let predictions = (0..100).map(|step| {
            let turns = vec![Notches(step % 5 - 2); arms];
            timed_ms(|| {
                std::hint::black_box(advice.predicted(&turns));
            })
        });
        let (predicted_ms, _) = percentiles(predictions.collect());
        let findings_ms = timed_ms(|| {
            std::hint::black_box(advice.findings().expect("findings"));
        });
        let mut record = PressRecord::of(&first);
        for id in 1..10 {
            record
                .learn(&session(id, press(arms, 11.0)))
                .expect("a lesson");
        }
        let mut draws = Draws::new(Purpose::Simulation(99));
        let next = lace(
            record.start_session("next".into(), String::new()),
            &mut draws,
        );
        let mut visit_ms = || {
            timed_ms(|| {
                advise(&next, &shelf, &mut workspace);
            })
        };
        let (once_ms, again_ms) = (visit_ms(), visit_ms());
        println!(
            "{arms:4}  {mean_ms:9.2} {median:9.2} {most:9.2}        {:9.1}  {forecaster_ms:9.2} {forecast_ms:9.3} {predicted_ms:9.4}     {findings_ms:9.2}     {once_ms:9.1} {again_ms:9.1}",
            prior_ms - median
        );
    }
    let sessions: Vec<Session> = (0..500)
        .map(|id| session(id, press(4, 9.0 + 0.25 * (id % 20) as f64)))
        .collect();
    let shelf = PriorShelf::default();
    let half = |half: &[Session]| {
        busy_ms(|| {
            let mut workspace = AdviceWorkspace::default();
            for session in half {
                advise(session, &shelf, &mut workspace);
            }
        })
    };
    let seconds = std::thread::scope(|scope| {
        let halves = sessions
            .chunks(250)
            .map(|sessions| scope.spawn(move || half(sessions)));
        let halves: Vec<_> = halves.collect();
        let ms = halves.into_iter().map(|half| half.join().expect("a half"));
        ms.fold(0.0, f64::max) / 1e3
    });
    println!(
        "500 four-arm sessions of 20 geometries on two threads: {seconds:.2} s; 10,000 at this rate: {:.1} s",
        20.0 * seconds
    );
}
