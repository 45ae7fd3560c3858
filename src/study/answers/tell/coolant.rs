//! The rows of the coolant side.

use super::{heat, moisture, radiator};
use crate::quantity::{Amount, Kind};
use crate::say;
use crate::study::{Answers, Duty, DutyAnswers, Held, Section, SetPointAnswers, Thermal};

impl Answers {
    pub(super) fn surroundings(&self) -> Section {
        let mut section = Section::new("surroundings", "Surroundings");
        section.quantity("ambient_pressure", "Air pressure at this altitude", self.ambient).explained_by("ambient");
        section
    }

    pub(super) fn coolant_section(&self) -> Section {
        let coolant = &self.coolant;
        let mut section = Section::new("coolant", "Coolant and cap");
        section.words("mix", "Mix", say![coolant.mix.as_str()]);
        section
            .result("freezing_point", "Begins to freeze", &coolant.freezing, Kind::Temperature)
            .explained_by("freezing");
        section.result(
            "freezing_point_to_count_on",
            "Freezing point to count on",
            &coolant.freezing_to_count_on,
            Kind::Temperature,
        );
        section.quantity("boiling_point_open", "Boils with the cap off", coolant.boiling_open).explained_by("boiling");
        section
            .estimate("boiling_point_at_cap", "Boils behind the cap", coolant.boiling_at_cap, Kind::Temperature)
            .explained_by("boiling");
        section.estimate("cap_opening", "Cap opens at", coolant.cap_opening, Kind::GaugePressure).explained_by("cap");
        section.quantity("system_volume", "Volume of the system", coolant.volume);
        for region in &coolant.regions {
            let key = format!("volume_{}", region.name.replace(' ', "_"));
            section.quantity(&key, &format!("of it in the {}", region.name), region.volume);
        }
        section
    }

    pub(super) fn growth_section(&self) -> Section {
        let growth = &self.growth;
        let mut section = Section::new("expansion", "Expansion from fill to hot");
        if self.boils() {
            section.quantity("boiling_begins_at", "A duty boils; it begins at an engine outlet of", growth.hottest);
        } else {
            section.quantity("hottest", "Hottest engine outlet of all duties", growth.hottest);
        }
        let (into, second) = match (self.boils(), self.tank.vent.is_none()) {
            (true, _) => ("Goes into the tank until boiling begins", "The same by the second published densities"),
            (_, true) => ("The liquid in the header tank rises by", "The same by the second published densities"),
            _ => ("Goes into the tank", "The same by the second published densities"),
        };
        section.estimate("into_tank", into, growth.in_tank, Kind::Volume).explained_by("expansion");
        section.quantity("into_tank_second_set", second, growth.second_set);
        section.quantity("drawn_on_coldest_start", "Drawn from the tank on the coldest start", growth.drawn_cold);
        // Nothing drawn, nothing to explain: filled in the cold, or a header tank.
        if growth.drawn_cold.value > 0.0 {
            section.explained_by("contraction");
        }
        for doubt in growth.doubts.iter().take(4).filter(|doubt| doubt.share.value > 0.005) {
            let key = format!("spread_from_{}", doubt.name.replace([' ', '°'], "_"));
            section.amount(
                &key,
                &format!("Share of the spread: {}", doubt.name),
                Amount::of_kind(doubt.share, Kind::Share),
            );
        }
        section
    }

    /// What a row says where a duty boils: every figure of the hot tank would be of a state that does not last.
    pub(in crate::study) const BOILS_OVER: &'static str = "it boils over: coolant is lost and no figure holds";

    pub(super) fn tank_section(&self) -> Section {
        let tank = &self.tank;
        let header = self.tank.vent.is_none();
        let boils = self.boils();
        let title = if header { "Header tank" } else { "Overflow tank" };
        let mut section = Section::new("tank", title);
        section.quantity("capacity", "Holds to the lid", tank.capacity).explained_by("tank");
        if !header {
            for (key, label, value) in [
                ("wanted", "Volume wanted", tank.wanted),
                ("headroom", "Room left above hot level and surge", tank.headroom),
            ] {
                if boils {
                    section.absent(key, label, Self::BOILS_OVER);
                } else {
                    section.estimate(key, label, value, Kind::Volume).explained_by("tank-room");
                }
            }
        }
        let cold = if header { "In the tank when cold, trapped air collected" } else { "In the tank when cold" };
        section.quantity("cold_volume", cold, tank.cold_volume);
        for (key, label, mark) in [
            ("cold_mark", "Cold mark above the floor", tank.cold_mark),
            ("hot_mark", "Hot mark above the floor", tank.hot_mark),
            ("full_mark", "Never fill above", tank.full_mark),
            ("least_cold_mark", "Cold mark wanted: dip tube covered and a reserve against leaks", tank.least_cold_mark),
            ("tilt_cold_mark", "Lowest cold mark that keeps the dip tube covered", tank.tilt_cold_mark),
            ("cover_at_rest", "Dip tube cover, coldest start, at rest", tank.cover_at_rest),
            ("cover_cornering", "Dip tube cover cornering", tank.cover_cornering),
            ("cover_braking", "Dip tube cover braking or accelerating", tank.cover_braking),
        ] {
            // A header tank has two levels and no dip tube.
            if header && !matches!(key, "cold_mark" | "hot_mark") {
                continue;
            }
            match mark {
                _ if boils && key == "hot_mark" => section.absent(key, label, Self::BOILS_OVER),
                Some(mark) => section.quantity(key, label, mark),
                None => section.absent(key, label, self.why_no(key)),
            };
        }
        if header {
            return section;
        }
        section
            .estimate("suction", "Suction to bring coolant back", tank.suction, Kind::PressureDifference)
            .explained_by("return");
        section.flag("comes_back", "Coolant comes back on cooling", tank.comes_back && !boils);
        for (key, label, value) in [
            ("not_back", "Of what came, not back after one cooling", tank.lost),
            ("air_after_cooling", "Air in the system after cooling", tank.air_after),
            ("next_warm_up", "Leaves at the next warm-up", tank.next_expelled),
        ] {
            if boils {
                section.absent(key, label, Self::BOILS_OVER);
            } else {
                section.quantity(key, label, value);
            }
        }
        section.quantity("lowest_while_cooling", "Lowest system pressure while cooling", tank.cooling_gauge);
        section
    }

    fn why_no(&self, key: &str) -> String {
        let cover = key.starts_with("cover") || key.ends_with("_cold_mark");
        match (&self.tank.cover_unknown, cover) {
            (Some(why), true) => why.clone(),
            (None, true) => "this arrangement has no dip tube that coolant comes back by".to_owned(),
            _ => "it would lie outside the tank".to_owned(),
        }
    }

    pub(super) fn vent_section(&self) -> Option<Section> {
        let vent = self.tank.vent.as_ref()?;
        let mut section = Section::new("tank_vent", "Tank vent");
        section.flag("sealed", "Lid sealed", vent.sealed);
        for (key, label, gauge) in [
            ("warm_up", "Pressure in the tank warming up", vent.warm_up),
            ("cap_lift", "Pressure when the cap lifts with liquid", vent.cap_lift),
            ("boil_over", "Pressure when steam comes over", vent.steam),
        ] {
            match gauge {
                // No can bears an atmosphere: beyond it the figure only says that the vent is far too small.
                Some(gauge) if gauge.likely.above_ambient().value > 100e3 => {
                    section.absent(key, label, "more than 100 kPa: the tank gives way long before").explained_by("vent")
                }
                Some(gauge) if gauge.high.above_ambient().value > 100e3 => {
                    let (likely, low) = (Amount::of(gauge.likely), Amount::of(gauge.low));
                    let words = say![likely, " (", low, " to more than ", Amount::new(100e3, Kind::GaugePressure), ")"];
                    section.words(key, label, words).explained_by("vent")
                }
                Some(gauge) => section.estimate(key, label, gauge, Kind::GaugePressure).explained_by("vent"),
                None => section.absent(key, label, "the lid is sealed"),
            };
        }
        section.flag("overwhelmed", "More comes over than the vent passes", vent.overwhelmed);
        section.result("if_sealed", "The same tank with its lid sealed", &vent.if_sealed, Kind::GaugePressure);
        for (key, label, hole) in [
            ("least_hole_warm_up", "Smallest hole for a warm-up", vent.least_hole_warm_up),
            ("least_hole_cap_lift", "Smallest hole for a cap lift", vent.least_hole_cap_lift),
            ("least_hole_boil_over", "Smallest hole for steam", vent.least_hole_steam),
        ] {
            section.estimate(key, label, hole, Kind::Length).explained_by("vent");
        }
        section.estimate("steam", "Steam of a boil-over", vent.steam_flow, Kind::GasFlow);
        section.estimate("allowed", "Pressure the tank may see", vent.allowed, Kind::PressureDifference);
        Some(section)
    }

    pub(super) fn rest_section(&self) -> Section {
        let mut section = Section::new("at_rest", "Cold morning and hot stop");
        section.quantity("coldest", "Coldest start reckoned with", self.cold_morning.temperature);
        let cold = &self.cold_morning.held;
        section.quantity("cold_morning_system_pressure", "Cold morning: system pressure", cold.gauge);
        section.quantity("cold_morning_in_tank", "Cold morning: in the tank", cold.in_tank);
        match cold.level {
            Some(level) => section.quantity("cold_morning_level", "Cold morning: level", level),
            None => section.absent("cold_morning_level", "Cold morning: level", "it stands above the lid"),
        };
        section
            .estimate(
                "hot_stop",
                "Hot stop: coolant in the engine evens out at, no heat lost",
                self.hot_stop.spread,
                Kind::Temperature,
            )
            .explained_by("hot-stop");
        section.flag(
            "hot_stop_may_boil",
            "Hot stop: may boil (an open tank then has the surge reckoned in)",
            self.hot_stop.boils,
        );
        held_rows(&mut section, "hot_stop_", "Hot stop: ", &self.hot_stop.held);
        section
    }
}

fn held_rows(section: &mut Section, key: &str, words: &str, held: &Held) {
    section.quantity(&format!("{key}system_pressure"), &format!("{words}system pressure"), held.gauge);
    section.quantity(&format!("{key}in_tank"), &format!("{words}in the tank"), held.in_tank);
    match held.level {
        Some(level) => section.quantity(&format!("{key}level"), &format!("{words}level"), level),
        None => {
            section.absent(&format!("{key}level"), &format!("{words}level"), "it stands above the lid: the tank spills")
        }
    };
    let label = format!("{words}boiling margin");
    section.estimate(&format!("{key}boiling_margin"), &label, held.margin, Kind::TemperatureDifference);
    if let Some(after) = held.margin_after {
        let label = format!("{words}boiling margin after the hottest duty has driven coolant out");
        section.estimate(&format!("{key}boiling_margin_after"), &label, after, Kind::TemperatureDifference);
    }
}

pub(super) fn heat_section(duty: &DutyAnswers) -> Section {
    let word = duty.duty.word();
    let mut section = Section::new(format!("heat_{word}"), format!("{}: heat", duty.duty.name()));
    section.quantity("manifold_pressure", "Manifold pressure, absolute", duty.manifold);
    section.flag("manifold_estimated", "Manifold pressure estimated", duty.manifold_estimated);
    section.estimate("heat", "Heat into the coolant", duty.heat, Kind::Power).explained_by(format!("heat/{word}"));
    if duty.boils() {
        section.absent("coolant_outlet", "Coolant at the engine outlet", "it does not settle: it boils");
        section.quantity("boiling_begins_at", "Boiling begins at an engine outlet of", duty.outlet);
    } else {
        section.quantity("coolant_outlet", "Coolant at the engine outlet", duty.outlet);
    }
    section.explained_by(format!("balance/{word}"));
    match &duty.thermal {
        Thermal::Steady {
            opening,
            fully_open_at,
            radiator_rules,
            spare,
            holds_to,
            boils_above,
            settles_cooling,
            fan,
            face_velocity,
            ..
        } => {
            section.amount("thermostat_opening", "Thermostat opening", Amount::of_kind(*opening, Kind::Share));
            section.words("rules", "Temperature set by", say![radiator::who_rules(*radiator_rules, fan)]);
            for (key, label, value) in [
                ("fully_open_at", "With the thermostat fully open it would settle at", fully_open_at),
                ("thermostat_rules_to", "The thermostat rules up to an air temperature of", holds_to),
                ("boils_above", "It stays below boiling up to an air temperature of", boils_above),
            ] {
                match value {
                    Some(value) => section.quantity(key, label, *value),
                    None => section.absent(key, label, "outside what can be reckoned with"),
                };
            }
            section.quantity("radiator_spare", "Radiator capacity to spare", *spare);
            let cooling = format!("cooling/{word}");
            radiator::cooling(&mut section, duty.outlet, *settles_cooling, cooling);
            let label = if fan.cycles() { "Face air speed, mean over the fan's turns" } else { "Face air speed" };
            section.amount("face_air", label, Amount::of_kind(*face_velocity, Kind::GasSpeed));
            radiator::fan(&mut section, fan);
        }
        Thermal::StaysShut => {
            section.words(
                "rules",
                "Temperature set by",
                say!["losses: the thermostat stays shut and the engine runs cold"],
            );
        }
        Thermal::NoSteadyState { excess, thermostat_too_late, fan } => {
            let why = if *thermostat_too_late {
                "nothing: it boils before the thermostat has opened far enough"
            } else {
                "nothing: it boils before the radiator carries the heat"
            };
            section.words("rules", "Temperature set by", say![why]);
            section.quantity("excess_heat", "Heat that finds no way out", *excess);
            radiator::fan(&mut section, fan);
        }
    }
    heat::of_duty(duty, &mut section);
    if duty.boils() {
        for (key, label) in [("in_tank", "in the tank"), ("level", "level"), ("boiling_margin", "boiling margin")] {
            section.absent(key, label, "it boils over: coolant is lost and no level holds");
        }
    } else {
        held_rows(&mut section, "", "", &duty.held);
    }
    section
}

pub(super) fn set_point_section(row: &SetPointAnswers) -> Section {
    let celsius = (crate::quantity::in_celsius(row.set_point)).round();
    let mut section = Section::new(
        format!("set_point_{celsius:.0}"),
        format!("Thermostat {celsius:.0} °C{}", if row.fitted { " (fitted)" } else { "" }),
    );
    section.quantity("set_point", "Starts to open at", row.set_point);
    section.flag("fitted", "Fitted", row.fitted);
    section.quantity("into_tank", "Goes into the tank at its hottest duty", row.in_tank);
    match row.cold_mark {
        Some(mark) => section.quantity("cold_mark", "Cold level, the same for every setting", mark),
        None => section.absent("cold_mark", "Cold level, the same for every setting", "it would lie outside the tank"),
    };
    match row.hot_mark {
        Some(mark) => section.quantity("hot_mark", "Hot level at its hottest duty", mark),
        None => section.absent("hot_mark", "Hot level at its hottest duty", "it stands above the lid: the tank spills"),
    };
    section.quantity("least_boiling_margin", "Smallest boiling margin of all duties, at its low end", row.least_margin);
    moisture::of_set_point(&row.moisture, &mut section);
    heat::of_set_point(row, &mut section);
    for (duty, at) in Duty::ALL.into_iter().zip(&row.duties) {
        let label = format!("{}: coolant", duty.name());
        match at.outlet {
            Some(outlet) => section.quantity(duty.word(), &label, outlet),
            None => section.absent(duty.word(), &label, "it boils before the radiator carries the heat"),
        };
        let rules = match at.outlet {
            Some(_) => radiator::who_rules(at.radiator_rules, &at.fan),
            None => "nothing: it boils",
        };
        section.words(&format!("{}_set_by", duty.word()), &format!("{}: set by", duty.name()), say![rules]);
        for (key, label, air) in [
            ("holds_to", "the thermostat rules up to an air temperature of", at.holds_to),
            ("boils_above", "it stays below boiling up to an air temperature of", at.boils_above),
        ] {
            let (key, label) = (format!("{}_{key}", duty.word()), format!("{}: {label}", duty.name()));
            match air {
                Some(air) => section.quantity(&key, &label, air),
                None => section.absent(&key, &label, "not even in air of −50 °C"),
            };
        }
        let spare = format!("{}: radiator capacity to spare", duty.name());
        section.quantity(&format!("{}_spare", duty.word()), &spare, at.spare);
    }
    section
}
