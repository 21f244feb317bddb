//! The gauge in the window, driven by label and by keyboard in both languages.

#[path = "support/machines.rs"]
mod machines;

use eframe::egui::{Key, Modifiers, Role};
use egui_kittest::kittest::{NodeT, Queryable};
use jawtrue::press::ArmIndex;
use jawtrue::session::{Field, Session};
use jawtrue::splice::{GAUGE_PRESETS, GaugeKind};
use jawtrue::units::Unit;
use jawtrue::words::{Figures, Language};
use machines::MACHINES;

#[path = "support/hand.rs"]
mod hand;

use hand::{Opening, Window};

/// The window and the language it is driven in.
struct Driver {
    harness: Window,
    words: Language,
    _folder: tempfile::TempDir,
}

impl Driver {
    /// A window in a folder of its own, on the sample that opens by itself.
    fn new(words: Language) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let opening = Opening {
            preferences: &hand::speaking(words),
            ..Opening::default()
        };
        let mut harness = hand::open(folder.path(), opening);
        hand::settle(&mut harness, words);
        Self {
            harness,
            words,
            _folder: folder,
        }
    }

    fn session(&self) -> &Session {
        self.harness.state().session()
    }

    fn press(&mut self, modifiers: Modifiers, key: Key) {
        hand::press(&mut self.harness, modifiers, key);
    }

    fn enter(&mut self, text: &str) {
        hand::type_text(&mut self.harness, text);
        self.press(Modifiers::NONE, Key::Enter);
    }

    fn click_role(&mut self, role: Role, label: &str) {
        hand::click(&mut self.harness, role, label);
    }

    fn click(&mut self, label: &str) {
        hand::push(&mut self.harness, label);
    }

    /// Types into a field, and stays there.
    fn type_at(&mut self, label: &str, text: &str) {
        hand::type_at(&mut self.harness, label, text);
    }

    /// Types in place of what stands in a field, and goes on.
    fn fill(&mut self, label: &str, text: &str) {
        hand::fill(&mut self.harness, label, text);
    }

    fn shows(&self, part: &str) -> bool {
        hand::says(&self.harness, part)
    }

    /// Pastes into a field that takes a table.
    fn paste_at(&mut self, label: &str, table: &str) {
        hand::paste_at(&mut self.harness, label, table);
    }

    /// Opens the gauge check.
    fn open_check(&mut self) {
        let words = self.words;
        self.press(Modifiers::COMMAND, Key::G);
        self.click(words.gauge_check());
    }

    fn close(&mut self) {
        let words = self.words;
        self.click(words.close());
    }
}

#[test]
fn the_gauge_is_described_and_its_calibration_watched() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        window.press(Modifiers::COMMAND, Key::G);
        window.harness.get_by_label(words.gauge_title());
        window.fill(&words.field(Field::GaugeName), "Caliper 4");
        window.fill(&words.field(Field::GaugeStep), "0.001");
        window.fill(&words.field(Field::GaugeLimit), "0.001");
        window.fill(&words.field(Field::GaugeRepeatability), "0.0004");
        window.fill(&words.field(Field::LacingScatter), "0.0005");
        let gauge = &window.session().gauge;
        assert_eq!(gauge.name, "Caliper 4");
        assert_eq!(gauge.step.text(), "0.001 in");
        assert_eq!(gauge.limit_of_error.as_ref().unwrap().length().nm(), 25_400);
        let known = gauge.repeatability.as_ref().unwrap();
        assert_eq!((known.sd.length().nm(), known.dof), (10_160, None));
        let lacing = window.session().lacing_scatter.as_ref().unwrap();
        assert_eq!(lacing.sd.length().nm(), 12_700);

        let kind = words.gauge_kind_named(words.gauge_kind(GaugeKind::DialCaliper));
        window.click_role(Role::RadioButton, &kind);
        assert_eq!(window.session().gauge.kind, GaugeKind::DialCaliper);
        // 6 x 0.0004 / 0.003 = 0.8.
        let percent = match words {
            Language::English => "uses up 80% of the tolerance",
            Language::Spanish => "consume el 80\u{a0}% de la tolerancia",
        };
        assert!(window.shows(percent));

        // What is no date stays to be mended; nothing is set.
        let due = words.field(Field::CalibrationDue);
        window.fill(&due, "31/12/2020");
        assert!(window.shows(&words.not_a_date("31/12/2020")));
        assert_eq!(window.session().gauge.calibration_due, None);
        window.fill(&due, "2999-12-31");
        assert!(window.shows(&words.calibration_holds("2999-12-31")));
        let overdue = words.calibration_overdue("2020-12-31");
        assert!(!window.shows(&overdue));
        window.fill(&due, "2020-12-31");
        assert!(window.shows(&overdue));
        window.close();
        // And beside the readings as long as it is past.
        assert!(window.shows(&overdue));
        window.press(Modifiers::COMMAND, Key::Z);
        assert!(!window.shows(&overdue));
    }
}

#[test]
fn a_date_typed_last_is_taken_when_the_dialog_is_closed() {
    let words = Language::English;
    let mut window = Driver::new(words);
    window.click(words.gauge_button());
    let due = words.field(Field::CalibrationDue);
    window.type_at(&due, "2020-01-31");
    window.close();
    let due = window.session().gauge.calibration_due.unwrap();
    assert_eq!(due.to_string(), "2020-01-31");
}

#[test]
fn a_gauge_of_the_library_asks_before_it_overwrites() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        window.press(Modifiers::COMMAND, Key::G);
        let micrometer = GAUGE_PRESETS[0];
        let figures = Figures::exact(words, Unit::Inch);
        let label = figures.preset_line(&micrometer);
        let kind = words.gauge_kind_named(words.gauge_kind(micrometer.kind));
        window.click_role(Role::RadioButton, &kind);
        let before = window.session().gauge.clone();

        window.fill(&words.field(Field::GaugeRepeatability), "0.0004");
        let typed = window.session().gauge.clone();
        assert_ne!(before, typed);
        window.click_role(Role::RadioButton, &label);
        assert!(window.shows(&words.preset_overwrites(&label)));
        window.click(words.preset_keep());
        assert_eq!(window.session().gauge, typed);
        window.click_role(Role::RadioButton, &label);
        window.click(words.preset_take());
        let gauge = &window.session().gauge;
        assert_eq!(gauge.kind, GaugeKind::Micrometer);
        assert_eq!(gauge.step.length(), micrometer.step);
        assert_eq!(gauge.repeatability, None);
        assert_eq!(gauge.name, typed.name);
        window.close();
        window.press(Modifiers::COMMAND, Key::Z);
        assert_eq!(window.session().gauge, typed);
    }
}

#[test]
fn ten_readings_of_one_knuckle_give_the_repeatability() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        window.open_check();
        // The keyboard is where the first reading goes; Enter goes on.
        for text in ["0.2501", "0.2503", "0.2502", "0.2502"] {
            window.enter(text);
        }
        assert!(window.shows(&words.check_empty(6, 10)));
        assert!(window.shows(&words.check_so_far(4)));
        // Each is taken without looking at those before, unless somebody asks.
        let first = |window: &Driver| {
            let name = words.check_reading(1);
            let cell = window.harness.get_by_label(&name);
            cell.accesskit_node().value()
        };
        assert_eq!(first(&window).as_deref(), Some("•••"));
        // Closing and coming back loses nothing, not even the cell not left.
        window.type_at(&words.check_reading(5), "0.2504");
        window.click(words.check_back());
        window.close();
        window.open_check();
        assert!(window.shows(&words.check_empty(5, 10)));
        window.paste_at(
            &words.check_reading(6),
            "0.2500\n0.2502\n0.2501\n0.2503\n0.2502\n0.2502",
        );
        assert!(window.shows(words.check_pasted_beyond()));
        let rest = "0.2500\n0.2502\n0.2501\n0.2503\n0.2502";
        window.paste_at(&words.check_reading(6), rest);
        assert_eq!(first(&window).as_deref(), Some("0.2501"));
        window.click(words.check_use());
        // Tenths of a mil about 0.2502: -1 1 0 0 2 -2 0 -1 1 0, squares 12,
        // sd sqrt(12 / 9) = 1.154701 tenths = 2932.94 nm.
        let known = window.session().gauge.repeatability.clone().unwrap();
        assert_eq!((known.sd.length().nm(), known.dof), (2933, Some(9)));
        // It stands in the gauge's dialog, which takes it back like any edit.
        window.harness.get_by_label(words.gauge_title());
        window.close();
        window.press(Modifiers::COMMAND, Key::Z);
        assert_eq!(window.session().gauge.repeatability, None);
        // And what was used can still be brought back.
        window.open_check();
        window.click(words.check_bring_back());
        window.click(words.check_use());
        assert_eq!(window.session().gauge.repeatability, Some(known));
    }
}

#[test]
fn bad_cells_of_a_check_are_told_and_not_used() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        window.open_check();
        let readings = "0.2501\n0.2502\n2.502\n0.2502\n0.2503";
        window.paste_at(&words.check_reading(1), readings);
        assert!(window.shows(&words.check_slip(words.check_reading(3))));
        let cannot_be_used = |window: &Driver| {
            let button = window.harness.get_by_label(words.check_use());
            assert!(button.accesskit_node().is_disabled());
        };
        cannot_be_used(&window);
        window.fill(&words.check_reading(3), "banana");
        assert!(window.shows("banana"));
        cannot_be_used(&window);
        window.fill(&words.check_reading(3), "6.355");
        let other =
            words.check_other_unit(words.check_reading(3), words.unit_name(Unit::Millimetre));
        assert!(window.shows(&other));
        window.fill(&words.check_reading(3), "6.355 mm");
        assert!(!window.shows(&other));
        window.click(words.check_clear());
        assert!(window.shows(words.check_bring_back()));
        assert_eq!(window.session().gauge.repeatability, None);
    }
}

#[test]
fn two_lacings_tell_gauge_and_lacing_apart() {
    let words = Language::English;
    let mut window = Driver::new(words);
    window.open_check();
    window.click_role(Role::RadioButton, words.check_two_lacings());
    let arms = window.session().press.arms.len();
    assert_eq!(arms, 4);
    // Tenths of a mil over 0.2500, by lacing, arm, knuckle and reading.
    let nm = |lacing: usize, arm: usize, knuckle: usize, reading: usize| {
        let tenths = [[3, 9, 0, 7], [5, 8, 4, 7]][lacing][arm]
            + [0, 2, 1][(knuckle + arm) % 3]
            + [0, 1, 0, 0, 2][(lacing + 2 * arm + 3 * knuckle + reading) % 5];
        i64::from(2500 + tenths) * 2540
    };
    let rows = (0..2 * arms).map(|row| {
        let cells = (0..6).map(|column| {
            let nm = nm(row / arms, row % arms, column / 2, column % 2);
            format!("{} mm", nm as f64 / 1e6)
        });
        cells.collect::<Vec<_>>().join("\t")
    });
    let table = rows.collect::<Vec<_>>().join("\n");
    window.paste_at(&words.check_at_lacing("A", 1, 1, 1), &table);
    window.click(words.check_use_both());

    // With numpy 2.4 from the table above, y[arm, lacing, knuckle, reading], for
    // arms at 6, 18, 30 and 42: km = y.mean(3); g = ((y - km[..., None])**2).sum()
    // / 24; cm = km.mean(2); k = 2 * ((km - cm[..., None])**2).sum() / 16; the
    // lacing's mean square is 6 / 2 times the squares of cm about the arm and,
    // lacing by lacing, a straight line over the arms (numpy.linalg.lstsq);
    // gauge g**.5, next lacing ((k - g) / 2 + (l - k) / 6)**.5.
    let session = window.session();
    let repeatability = session.gauge.repeatability.as_ref().unwrap();
    let lacing = session.lacing_scatter.as_ref().unwrap();
    assert_eq!(repeatability.sd.length().nm(), 2_487);
    assert_eq!(lacing.sd.length().nm(), 5_019);
}

#[test]
fn an_open_study_comes_out_by_either_reckoning() {
    let words = Language::English;
    let mut window = Driver::new(words);
    window.press(Modifiers::COMMAND, Key::U);
    window.open_check();
    window.click_role(Role::RadioButton, words.check_people());
    for (what, times) in [
        (words.count_people(), 1),
        (words.count_rounds(), 1),
        (words.count_knuckles(), 1),
    ] {
        for _ in 0..times {
            window.click(&words.one_more(what));
        }
    }
    // Its figures as hundredths of a millimetre about 9 mm.
    let cell = |knuckle: usize, round: &str| {
        let text = round.split_whitespace().nth(knuckle).unwrap();
        format!("{:.4}", 9.0 + 0.01 * text.parse::<f64>().unwrap())
    };
    let row = |knuckle: usize| {
        let rounds = MACHINES.iter().flatten();
        let cells: Vec<String> = rounds.map(|round| cell(knuckle, round)).collect();
        cells.join("\t")
    };
    let table: Vec<String> = (0..6).map(row).collect();
    window.paste_at(&words.check_at_person(1, 1, 1), &table.join("\n"));
    // As in tests/gauge_study.rs. Average and range: 0.905893, 7.276676,
    // 7.332848, 5.816731; analysis of variance: 0.961577, 7.765125, 7.824435,
    // 4.781051. Shown to two digits, as uncertainties are (JCGM 100:2008, 7.2.6).
    for sd in ["0.0091", "0.073", "0.058", "0.0096", "0.078", "0.048"] {
        assert!(window.shows(&format!("{sd} mm")), "{sd}");
    }
    // Fewer rounds and back: no reading moves to another knuckle.
    window.click(&words.one_fewer(words.count_rounds()));
    window.click(&words.one_more(words.count_rounds()));
    window.click(words.check_use());
    let known = window.session().gauge.repeatability.clone().unwrap();
    // Repeatability and interaction: 3.851504 with 10.88 degrees of freedom; no
    // offset of a person's own.
    assert_eq!(known.sd.length().nm(), 38_515);
    assert_eq!(known.dof, Some(10));
}

#[test]
fn a_reading_that_does_not_fit_is_struck_with_who_and_why() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        let before = window.session().spread_of(0).unwrap();
        let strike = words.strike_place(words.reading_label(5, "C"));
        assert!(!window.shows(&strike));
        // Five at C, one of them farther off than the whole tolerance.
        let five = "0.2510\t0.2505\t0.2509\t0.2508\t0.2690";
        window.paste_at(&words.reading_label(1, "C"), five);
        assert!(window.shows(&words.says_repeats("C")));
        // A station in doubt is not in the spread, and nothing is judged.
        let off = window.session().spread_of(0).unwrap();
        assert_eq!(off.value, before.value);
        assert!(!window.session().last_gate().is_clear());

        // Without a why nothing is struck.
        window.click(&strike);
        let button = window.harness.get_by_label(words.strike_it());
        assert!(button.accesskit_node().is_disabled());
        window.fill(words.field_who(), "Ann");
        hand::enter_at(&mut window.harness, words.strike_why(), "gauge slipped");
        let reading = |window: &Driver| {
            let cell = window.session().passes[0].cell(2, 4).clone();
            cell.reading().cloned().unwrap()
        };
        let struck = reading(&window).struck.unwrap();
        assert_eq!((&*struck.by, &*struck.why), ("Ann", "gauge slipped"));
        assert_eq!(reading(&window).typed.text(), "0.2690 in");
        assert!(window.shows("gauge slipped"));
        assert!(!window.shows(&words.says_repeats("C")));
        assert!(window.session().last_gate().is_clear());

        // And back, by keyboard alone.
        for _ in 0..3 {
            window.click(words.later_repeats());
        }
        let field = words.reading_label(5, "C");
        window.type_at(&field, "");
        window.press(Modifiers::COMMAND, Key::J);
        assert_eq!(reading(&window).struck, None);
        window.press(Modifiers::COMMAND, Key::J);
        window.enter("again");
        assert_eq!(reading(&window).struck.unwrap().why, "again");
        window.click(&words.struck_put_back(words.reading_label(5, "C")));
        assert_eq!(reading(&window).struck, None);
        window.press(Modifiers::COMMAND, Key::Z);
        assert_eq!(reading(&window).struck.unwrap().why, "again");
    }
}

#[test]
fn striking_what_is_no_reading_is_answered_in_words() {
    let words = Language::English;
    let mut window = Driver::new(words);
    window.press(Modifiers::COMMAND, Key::J);
    assert!(window.shows(words.strike_no_cell()));
    let field = words.reading_label(2, "A");
    window.fill(&field, "");
    window.type_at(&field, "");
    window.press(Modifiers::COMMAND, Key::J);
    assert!(window.shows(&words.strike_nothing(&field)));
    window.fill(words.strike_why(), "no idea");
    window.click(words.cancel());
    let rows = &window.session().passes[0].rows;
    assert!(rows.iter().flatten().all(|cell| cell.counting().is_some()));
}

#[test]
fn a_belt_as_uneven_as_the_tolerance_is_warned_of() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        window.click_role(Role::DisclosureTriangle, words.belt_section());
        // Enter goes on to the next station.
        hand::focus(&mut window.harness, Role::TextInput, &words.belt_at("A"));
        for text in ["0.2000", "0.2010", "0.2012"] {
            window.enter(text);
        }
        let belt = |window: &Driver| {
            let cells = window.session().passes[0].bare_belt.iter();
            cells.map(|cell| cell.text().to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(belt(&window), ["0.2000 in", "0.2010 in", "0.2012 in", ""]);
        let warning = match words {
            Language::English => "as much as the tolerance: thickest at D, thinnest at A",
            Language::Spanish => "tanto como la tolerancia: más gruesa en D, más delgada en A",
        };
        assert!(
            !window
                .session()
                .belt_variation(0)
                .unwrap()
                .as_large_as_tolerance
        );
        let varies = match words {
            Language::English => "thickest at C, thinnest at A",
            Language::Spanish => "más gruesa en C, más delgada en A",
        };
        assert!(window.shows(varies) && !window.shows(warning));
        // Just the tolerance is as large; told even when folded up.
        window.fill(&words.belt_at("D"), "0.2030");
        assert!(
            window
                .session()
                .belt_variation(0)
                .unwrap()
                .as_large_as_tolerance
        );
        window.click_role(Role::DisclosureTriangle, words.belt_section());
        window.harness.run_steps(20);
        assert!(window.shows(warning));
        window.click_role(Role::DisclosureTriangle, words.belt_section());
        window.harness.run_steps(20);
        window.fill(&words.belt_at("D"), "banana");
        assert!(window.shows("banana"));
        window.paste_at(&words.belt_at("A"), "0.2001\t0.2002\t0.2003\t0.2004\t9");
        assert_eq!(
            belt(&window),
            ["0.2001 in", "0.2002 in", "0.2003 in", "0.2004 in"]
        );
    }
}

#[test]
fn a_finer_gauge_comes_before_turns_by_a_coarse_one() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        let anyway = words.go_and_turn_all_the_same();
        hand::until(&mut window.harness, anyway, |harness| {
            hand::says(harness, anyway)
        });
        // It leads to the gauge, where readings of the other are not taken for its own.
        let first = words.first_measure_with(words.a_micrometer());
        let button = window.harness.get_by_label_contains(&first);
        button.click();
        window.harness.run_steps(3);
        assert!(window.shows(words.gauge_title()));
        let kind = words.gauge_kind_named(words.gauge_kind(GaugeKind::Micrometer));
        window.click_role(Role::RadioButton, &kind);
        window.harness.run_steps(3);
        let figures = Figures::exact(words, Unit::Inch);
        let micrometer = figures.preset_line(&GAUGE_PRESETS[0]);
        window.click_role(Role::RadioButton, &micrometer);
        window.harness.run_steps(3);
        assert!(window.shows(words.gauge_is_another()));
        window.click_role(Role::Button, words.close());
        // As these readings vary, they are still no ground for turns.
        let again = words.first_measure_all_again();
        hand::until(&mut window.harness, again, |harness| {
            hand::says(harness, again)
        });
        assert!(!window.shows(&first));
    }
}

#[test]
fn a_belt_end_turned_round_tells_the_belt_from_the_jaw() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        // So does what is advised.
        let said = words.kind_recommended();
        hand::until(&mut window.harness, said, |harness| {
            hand::says(harness, said)
        });
        for _ in 0..3 {
            window.click(&words.turn_one_in(ArmIndex(1)));
        }
        // What is to be done next comes from another thread.
        let act = words.act_lace_again();
        hand::until(&mut window.harness, act, |harness| hand::says(harness, act));
        window.click(act);
        // The jaw is even; the belt is 0.004 thicker at D than at A.
        window.press(Modifiers::ALT, Key::PageUp);
        let rows = |texts: [&str; 4]| texts.map(|text| format!("{text}\t{text}")).join("\n");
        let first = rows(["0.2500", "0.2510", "0.2530", "0.2540"]);
        window.paste_at(&words.reading_label(1, "A"), &first);
        window.press(Modifiers::ALT, Key::PageDown);
        let second = rows(["0.2540", "0.2530", "0.2510", "0.2500"]);
        window.paste_at(&words.reading_label(1, "A"), &second);
        window.click_role(Role::DisclosureTriangle, words.belt_section());
        window.harness.run_steps(20);
        window.click_role(Role::CheckBox, words.belt_flipped());
        assert!(window.session().passes[1].flipped);
        let figures = Figures::exact(words, Unit::Inch);
        let test = window.session().flip_test(0, 1).unwrap();
        let names = |at: usize| window.session().station_name(at);
        let sentences = figures.flip_sentences(&test, &names);
        assert!(sentences.len() >= 3, "{sentences:?}");
        let thicker = match words {
            Language::English => "thicker at D than at A",
            Language::Spanish => "más gruesa en D que en A",
        };
        assert!(window.shows(thicker));
        assert!(window.shows(words.flip_even()));
        assert!(!window.shows(words.flip_turned_between()));
        window.click_role(Role::CheckBox, words.belt_flipped());
        assert!(!window.session().passes[1].flipped);
        assert!(!window.shows(words.flip_even()));
    }
}

#[test]
fn the_level_is_judged_against_a_target_only() {
    for words in Language::ALL {
        let mut window = Driver::new(words);
        assert!(window.shows(words.level_unjudged()));
        window.press(Modifiers::COMMAND, Key::Comma);
        window.click_role(Role::Tab, words.part_visit());
        window.fill(&words.field(Field::Target), "0.2400");
        window.close();
        assert!(!window.shows(words.level_unjudged()));
        // Every arm is above it: the common handle is the remedy.
        let figures = Figures::exact(words, Unit::Inch);
        let handle = figures.level_sentence(&window.session().level_of(0));
        assert!(window.shows(&handle));
        let remedy = match words {
            Language::English => "move the common handle as the manual says, not the nuts",
            Language::Spanish => "mueva la manija común como dice el manual, no las tuercas",
        };
        assert!(handle.contains(remedy), "{handle}");
    }
}
