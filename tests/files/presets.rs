//! Every preset reads, applies, and says where each of its values comes from.

use crate::recorder::record;
use coldmark::file::{Preset, PresetLine, PresetPart, demo, presets, presets_in, write_project};
use coldmark::quantity::{Measured, UnitSystem};
use coldmark::source::Standing;
use coldmark::study::{CanPlace, Choice, Duty, Project, VentilationArrangement};
use std::collections::BTreeSet;
use std::path::PathBuf;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("presets")
}

fn preset(part: PresetPart, key: &str) -> &'static Preset {
    presets().of(part).find(|preset| preset.key == key).unwrap_or_else(|| panic!("no preset {key}"))
}

#[test]
fn every_preset_reads_and_applies_to_the_blank_project() {
    let ours = presets();
    for fault in &ours.faults {
        println!("{fault}");
    }
    assert!(ours.faults.is_empty());
    for preset in &ours.presets {
        let mut project = Project::blank();
        preset.apply(&mut project);
        project.check().unwrap_or_else(|problems| panic!("{}:\n{problems}", preset.key));
        assert!(!preset.name.is_empty() && !preset.remark.is_empty(), "{}", preset.key);
    }
}

/// The paths a preset's own text sets, found by the general TOML reader, against its sources.
#[test]
fn every_value_has_a_source_and_every_source_a_value() {
    fn paths(table: &toml::Table, path: &str, found: &mut BTreeSet<String>) {
        for (key, value) in table {
            let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
            match value {
                toml::Value::Table(inner) => paths(inner, &path, found),
                _ => assert!(found.insert(path)),
            }
        }
    }
    let mut values = 0;
    for preset in &presets().presets {
        let file = folder().join(preset.part.word()).join(format!("{}.toml", preset.key));
        let mut table: toml::Table = std::fs::read_to_string(file).unwrap().parse().unwrap();
        for own in ["coldmark_preset", "part", "name", "remark", "source"] {
            assert!(table.remove(own).is_some(), "{}: {own}", preset.key);
        }
        let mut set = BTreeSet::new();
        paths(&table, "", &mut set);
        let sourced: BTreeSet<String> = preset.sources.iter().map(|source| source.path.clone()).collect();
        assert_eq!(set, sourced, "{}", preset.key);
        values += set.len();
        for source in &preset.sources {
            let words_enough = source.words.len() > 5 || source.standing == Standing::CommonPractice;
            assert!(words_enough, "{}: {} \"{}\"", preset.key, source.path, source.words);
        }
    }
    assert!(values > 200, "{values}");
}

/// Applying a preset changes what it sets and nothing else, whatever was there before.
#[test]
fn a_preset_sets_its_values_and_nothing_else() {
    for base in [Project::blank(), demo()] {
        for preset in &presets().presets {
            let mut project = base.clone();
            preset.apply(&mut project);
            let (before, after) = (record(&base), record(&project));
            let set: BTreeSet<&str> = preset.sources.iter().map(|source| source.path.as_str()).collect();
            // A choice may show other inputs; those both show differ only where the preset sets them.
            for (path, value) in &after {
                if before.get(path).is_some_and(|old| old != value) {
                    // A list is set as one; a part that was not there before comes with what is set in it.
                    let whole = path.split('[').next().unwrap();
                    let part = path.strip_suffix("known").filter(|part| set.iter().any(|path| path.starts_with(part)));
                    assert!(set.contains(whole) || part.is_some(), "{} changed {path}", preset.key);
                }
            }
            // Once more is no change.
            let mut again = project.clone();
            preset.apply(&mut again);
            assert_eq!(again, project, "{}", preset.key);
            // What one preset sets, it sets over any other of its part.
            for other in presets().of(preset.part) {
                let mut over = base.clone();
                other.apply(&mut over);
                preset.apply(&mut over);
                let over = record(&over);
                for path in &set {
                    assert_eq!(over.get(*path), after.get(*path), "{} after {}: {path}", preset.key, other.key);
                }
            }
        }
    }
}

#[test]
fn there_are_presets_of_every_part() {
    let least = |part| match part {
        PresetPart::Engine => 11,
        PresetPart::Radiator | PresetPart::Cap | PresetPart::Thermostat => 5,
        PresetPart::Fan => 3,
        PresetPart::Tank => 9,
        PresetPart::Valve | PresetPart::Breather => 4,
        PresetPart::Day => 3,
        PresetPart::Arrangement => 8,
        PresetPart::Hose => 20,
    };
    let mut names = BTreeSet::new();
    for &part in PresetPart::ALL {
        assert!(presets().of(part).count() >= least(part), "{part:?}");
        for preset in presets().of(part) {
            assert!(names.insert((part, preset.name.as_str())), "two are called {}", preset.name);
        }
    }
}

/// A hose goes into the line it is chosen for, and leaves the others alone.
#[test]
fn a_hose_goes_into_its_line() {
    for hose in presets().of(PresetPart::Hose) {
        let mut project = demo();
        hose.apply_to(PresetLine::Breather, &mut project);
        let fitted = project.ventilation.breather.clone();
        assert_ne!(fitted, demo().ventilation.breather, "{}", hose.key);
        assert!(fitted.barb.is_none_or(|barb| barb < fitted.bore), "{}", hose.key);
        // Fittings narrow a hose by a millimetre to three, an eighth of an inch of the largest.
        let narrower = fitted.bore.base() - fitted.barb.unwrap_or(fitted.bore).base();
        assert!((0.0..0.0045).contains(&narrower), "{}: {narrower}", hose.key);
        for line in [PresetLine::Second, PresetLine::Valve] {
            let mut project = demo();
            hose.apply_to(line, &mut project);
            assert_eq!(project.ventilation.breather, demo().ventilation.breather, "{}", hose.key);
            let ventilation = &project.ventilation;
            let there = if line == PresetLine::Second { &ventilation.second } else { &ventilation.valve_line };
            assert_eq!((there.bore, there.barb), (fitted.bore, fitted.barb), "{}", hose.key);
        }
    }
}

/// Common practice, no source: the dash number counts sixteenths of an inch, and the hose is a little narrower.
#[test]
fn dash_sizes_are_sixteenths() {
    let dash = presets().of(PresetPart::Hose).filter_map(|hose| Some((hose, hose.key.strip_prefix("dash-")?)));
    let mut count = 0;
    for (hose, number) in dash {
        let mut project = demo();
        hose.apply(&mut project);
        let nominal = number.parse::<f64>().unwrap() * 0.0254 / 16.0;
        let share = project.ventilation.breather.bore.base() / nominal;
        assert!((0.85..1.0).contains(&share), "{}: {share}", hose.key);
        count += 1;
    }
    assert_eq!(count, 6);
}

/// The presets compiled in are those of the folder, no more and no fewer.
#[test]
fn the_folder_holds_the_same_presets() {
    let read = presets_in(&folder());
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    let mut ours = presets().presets.clone();
    ours.sort_by(|a, b| (a.part, &a.key).cmp(&(b.part, &b.key)));
    let named = |presets: &[Preset]| presets.iter().map(|p| (p.part, p.key.clone())).collect::<Vec<_>>();
    assert_eq!(named(&read.presets), named(&ours));
    assert!(read.presets == ours, "a preset differs from its file");
}

/// 13 psi is 89.6 kPa and so on: a cap's class in one unit is the other's within the roundings of the trade.
#[test]
fn caps_and_thermostats_agree_in_both_units() {
    for preset in presets().of(PresetPart::Cap) {
        let mut project = Project::blank();
        preset.apply(&mut project);
        let psi: f64 = preset.name.split(['(', ' ']).nth(3).unwrap().parse().unwrap();
        let kilopascals = project.cap.opening.base() / 1e3;
        assert!((psi * 6.894_757 - kilopascals).abs() < 2.2, "{}: {kilopascals}", preset.name);
    }
    for preset in presets().of(PresetPart::Thermostat) {
        let mut project = Project::blank();
        preset.apply(&mut project);
        let fahrenheit: f64 = preset.name.split(['(', ' ']).nth(3).unwrap().parse().unwrap();
        let celsius = project.thermostat.set_point.base() - 273.15;
        // Both are rounded: 91 °C is 195.8 °F.
        assert!((1.8 * celsius + 32.0 - fahrenheit).abs() < 1.0, "{}: {celsius}", preset.name);
    }
}

#[test]
fn engines_have_the_size_they_are_called_by_and_rising_duties() {
    for preset in presets().of(PresetPart::Engine) {
        let mut project = Project::blank();
        preset.apply(&mut project);
        let engine = &project.engine;
        let litres = std::f64::consts::FRAC_PI_4
            * engine.bore.base().powi(2)
            * engine.stroke.base()
            * f64::from(engine.cylinders)
            * 1e3;
        let named: f64 = match preset.name.split_once(" cc") {
            Some((before, _)) => before.rsplit(' ').next().unwrap().parse::<f64>().unwrap() / 1e3,
            None => preset.name.split(" L").next().unwrap().rsplit(' ').next().unwrap().parse().unwrap(),
        };
        assert!((litres / named - 1.0).abs() < 0.01, "{}: {litres}", preset.name);
        let at = |duty| project.duty.of(duty);
        assert!(at(Duty::Idle).rpm < at(Duty::Cruise).rpm && at(Duty::Hill).rpm < at(Duty::FullThrottle).rpm);
        assert!(at(Duty::Cruise).power < at(Duty::Hill).power && at(Duty::Hill).power < at(Duty::FullThrottle).power);
        // Mean effective pressure at full throttle: 0.6 to 1.2 MPa of an engine that breathes on its own, 0.5 to 0.9 MPa of a
        // diesel that does, 1.2 to 2.4 MPa with a blower (from memory).
        let full = at(Duty::FullThrottle);
        let pressure = full.power.base() * 4.0 * std::f64::consts::PI / (full.rpm.base() * litres * 1e-3);
        let usual = match (engine.is_boosted(), engine.is_diesel()) {
            (true, _) => 1.2e6..2.4e6,
            (false, true) => 0.5e6..0.9e6,
            (false, false) => 0.6e6..1.2e6,
        };
        assert!(usual.contains(&pressure), "{}: {pressure}", preset.name);
    }
}

#[test]
fn a_new_engine_forgets_what_was_measured_on_the_old_one() {
    let mut project = demo();
    project.blow_by.metered.known = true;
    project.blow_by.rings.known = true;
    assert!(project.car.highest_speed.is_some() && project.car.mass.is_some());
    assert!(!project.blow_by.leak_down.is_empty() && project.duty.of(Duty::Idle).manifold.is_some());
    preset(PresetPart::Engine, "four-2.0").apply(&mut project);
    assert!(project.blow_by.leak_down.is_empty());
    assert!(!project.blow_by.metered.known && !project.blow_by.rings.known);
    assert!(Duty::ALL.iter().all(|&duty| project.duty.of(duty).manifold.is_none()));
    // The car it goes into stays.
    assert!(project.car.highest_speed.is_none() && project.car.mass.is_some());
    project.check().unwrap();
}

#[test]
fn a_valve_waits_where_the_arrangement_has_none() {
    let mut project = demo();
    preset(PresetPart::Arrangement, "breather-only").apply(&mut project);
    preset(PresetPart::Valve, "small-four").apply(&mut project);
    assert_eq!(project.ventilation.arrangement, VentilationArrangement::BreatherOnly);
    assert!((project.ventilation.valve.open_area.base() - 6e-6).abs() < 1e-18);
    preset(PresetPart::Arrangement, "closed-can-valve").apply(&mut project);
    assert_eq!(project.ventilation.can.place, CanPlace::ValveLine);
    assert!(write_project(&project, UnitSystem::Si).contains("open_area = \"6 mm²\""));
}

#[test]
fn the_example_is_sound_and_says_that_it_is_invented() {
    let example = demo();
    example.check().unwrap();
    assert_ne!(example, Project::blank());
    assert!(example.title.contains("invented") && example.remark.to_lowercase().contains("invented"));
    let text = std::fs::read_to_string(folder().join("demo.toml")).unwrap();
    assert_eq!(coldmark::file::read_project(&text).unwrap(), example);
}

/// What a valve's preset says it passes is what its element passes in air of 20 °C.
#[test]
fn valves_pass_what_their_presets_say() {
    use coldmark::crankcase::element::{CheckValve, Element, End, FixedOrificeValve, Gas, PlungerValve, SpringPlunger};
    use coldmark::quantity::{AbsolutePressure, celsius};
    use coldmark::study::ValveKind;
    for preset in presets().of(PresetPart::Valve) {
        let mut project = Project::blank();
        preset.apply(&mut project);
        let valve = &project.ventilation.valve;
        let tight = Measured::from_base(0.0);
        let element: Element = match valve.kind {
            ValveKind::Plunger => PlungerValve {
                open_area: valve.open_area,
                idle_area: valve.idle_area,
                starts_reducing: valve.begins,
                fully_reduced: valve.ends,
                backfire_area: tight,
            }
            .into(),
            ValveKind::SpringPlunger => SpringPlunger {
                seat_bore: valve.spring.seat_bore,
                thick: valve.spring.thick,
                thin: valve.spring.thin,
                travel: valve.spring.travel,
                preload: valve.spring.preload,
                rate: valve.spring.rate,
                ..SpringPlunger::default()
            }
            .into(),
            ValveKind::FixedOrifice => FixedOrificeValve { bore: valve.orifice, ..FixedOrificeValve::default() }.into(),
            ValveKind::Check => CheckValve::of_area(valve.check_area).into(),
            other => panic!("{}: no flow is known of {other:?}", preset.key),
        };
        let said = |before: &str| -> f64 {
            let rest = preset.remark.split(before).nth(1).unwrap_or_else(|| panic!("{}: {before}", preset.key));
            rest.split(' ').next().unwrap().parse().unwrap()
        };
        let air = |pressure: f64| End { pressure: AbsolutePressure::from_base(pressure), temperature: celsius(20.0) };
        for (words, depression) in [("passes ", 65e3), ("across it) and ", 40e3)] {
            let flow = element
                .flow(air(101_325.0), air(101_325.0 - depression), Gas::default(), &mut coldmark::scribe::Silent)
                .unwrap();
            // One litre of dry air at 20 °C and 101.325 kPa weighs 1.2041 g.
            let litres = flow.base() / 1.2041e-3 * 60.0;
            assert!((litres / said(words) - 1.0).abs() < 0.025, "{}: {litres} at {depression}", preset.key);
        }
    }
}

/// One small fault each, with the sentence a person reads.
#[test]
fn faulty_presets_are_told_and_not_used() {
    let good = "coldmark_preset = 1\npart = \"cap\"\nname = \"Test\"\nremark = \"\"\n\n[cap]\nopening = \"90 kPa\"\n\n[source]\ncap.opening = \"estimate: a round figure\"\n";
    Preset::read("good", good).unwrap();
    for (from, to, expected) in [
        (
            "coldmark_preset = 1\n",
            "",
            "coldmark_preset: this is no Coldmark preset: its first line must be coldmark_preset = 1",
        ),
        (
            "coldmark_preset = 1",
            "coldmark_preset = 2",
            "line 1: coldmark_preset: this file has format 2; this version of the program reads format 1. Open it with a newer version; nothing was changed",
        ),
        (
            "\"cap\"",
            "\"lid\"",
            "line 2: part: the part must be one of: engine, radiator, fan, cap, thermostat, tank, valve, breather, hose, arrangement, day",
        ),
        ("\"Test\"", "\" \"", "line 3: name: the name must be text in quotes, of 1 to 400 characters"),
        ("remark = \"\"\n", "", "remark: the remark must be text in quotes, of 0 to 400 characters"),
        (
            "90 kPa",
            "900 kPa",
            "line 7: cap.opening: Cap opening pressure is 900 kPa, outside 5 kPa to 250 kPa; read the stamp on the cap",
        ),
        (
            "90 kPa",
            "90 mm",
            "line 7: cap.opening: 'mm' is not a unit of a gauge pressure; use one of: Pa, kPa, bar, mbar, psi, inH2O, mmH2O, inHg",
        ),
        (
            "opening = \"90 kPa\"",
            "opening = \"90 kPa\"\ncolour = \"red\"",
            "line 8: cap.colour: 'colour' is not an input of this place; known here: opening, condition, vacuum_opening",
        ),
        (
            "cap.opening =",
            "cap.condition =",
            "line 7: cap.opening: this value has no source; add cap.opening = \"…\" under [source]\nline 10: source.cap.condition: this source belongs to no value of the preset; delete it, or set the value",
        ),
        (
            "estimate: a round figure",
            "guess",
            "line 10: source.cap.opening: a source is text that begins with one of \"published: …\", \"from memory: …\", \"common practice, no source: …\", \"estimate: …\", \"definition: …\"\nline 7: cap.opening: this value has no source; add cap.opening = \"…\" under [source]",
        ),
        (
            "[cap]\nopening = \"90 kPa\"",
            "[tank]\nvent_diameter = \"6 mm\"",
            "line 7: tank.vent_diameter: a preset of part \"cap\" may set inputs of cap only\nline 7: tank.vent_diameter: this value has no source; add tank.vent_diameter = \"…\" under [source]\nline 10: source.cap.opening: this source belongs to no value of the preset; delete it, or set the value",
        ),
        ("[source]", "[sauce]", "source: the part [source] is missing; say there where each value comes from"),
    ] {
        assert!(good.contains(from), "{from}");
        let faults = Preset::read("test", &good.replace(from, to)).unwrap_err();
        let told = faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
        let mut expected: Vec<_> = expected.split('\n').collect();
        expected.sort_unstable();
        let mut lines: Vec<_> = told.split('\n').collect();
        lines.sort_unstable();
        if from == "[source]" {
            assert!(lines.contains(&expected[0]), "{told}");
        } else {
            assert_eq!(lines, expected, "{told}");
        }
    }
    // A value that hangs on a choice the preset leaves open.
    let open = good
        .replace("\"cap\"", "\"tank\"")
        .replace("[cap]\nopening = \"90 kPa\"", "[tank]\ndiameter = \"100 mm\"")
        .replace("cap.opening", "tank.diameter");
    let faults = Preset::read("open", &open).unwrap_err();
    assert_eq!(
        faults[0].to_string(),
        "line 7: tank.diameter: 'diameter' is asked for with some choices only; make the choice in this file too"
    );
}

#[test]
fn a_folder_tells_its_faulty_files_and_gives_the_others() {
    let folder = tempfile::tempdir().unwrap();
    let cap = std::fs::read_to_string(self::folder().join("cap/kpa-090.toml")).unwrap();
    std::fs::create_dir(folder.path().join("cap")).unwrap();
    std::fs::create_dir(folder.path().join("tank")).unwrap();
    std::fs::create_dir(folder.path().join("tank/odd.toml")).unwrap();
    std::fs::write(folder.path().join("cap/mine.toml"), &cap).unwrap();
    std::fs::write(folder.path().join("cap/notes.txt"), "not a preset").unwrap();
    std::fs::write(folder.path().join("cap/broken.toml"), "opening = ").unwrap();
    std::fs::write(folder.path().join("tank/stray.toml"), &cap).unwrap();
    let read = presets_in(folder.path());
    let keys: Vec<_> = read.presets.iter().map(|preset| preset.key.as_str()).collect();
    assert_eq!(keys, ["mine"]);
    let told: Vec<_> = read.faults.iter().map(ToString::to_string).collect();
    assert_eq!(told.len(), 3, "{told:#?}");
    assert!(told[0].contains("broken.toml has 1 fault:\n  line 1: this is not well-formed TOML"), "{told:#?}");
    assert!(told[1].ends_with("it is not a file but a folder or a device; name a file"), "{told:#?}");
    assert!(told[2].contains("lies in the folder tank and says it is of part cap"), "{told:#?}");
    let nowhere = presets_in(&folder.path().join("nowhere"));
    assert!(nowhere.presets.is_empty() && nowhere.faults.len() == 1);
}
