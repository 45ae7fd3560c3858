//! A day for programs: events and the series beside what people read.

use super::super::json::verdict_json;
use crate::day::{CapState, ExtremeOf, Sample};
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::study::answers::day::worst;
use crate::study::{CrankcaseSample, DayAnswers, to_json};
use serde_json::{Map, Value as Json, json};

/// A column of the series.
pub struct Column {
    /// Its words, for the head of a table.
    pub name: &'static str,
    /// Its key for programs.
    pub key: &'static str,
    /// What it is a number of.
    pub kind: Kind,
    /// Its figure of a sample, in the coherent SI unit.
    pub of: fn(&Sample, &CrankcaseSample) -> Option<f64>,
}

macro_rules! columns {
    ($($key:literal, $name:literal, $kind:ident, |$sample:pat_param, $crankcase:pat_param| $of:expr;)*) => {
        &[$(Column { key: $key, name: $name, kind: Kind::$kind, of: |$sample, $crankcase| $of }),*]
    };
}

/// The columns of the series, in the order of a table.
pub static COLUMNS: &[Column] = columns! {
    "time", "time", Time, |s, _| Some(s.time.base());
    "leg", "leg", Number, |s, _| Some(s.leg as f64 + 1.0);
    "air", "air", Temperature, |s, _| Some(s.air.base());
    "road_speed", "road speed", RoadSpeed, |s, _| Some(s.road_speed.base());
    "engine_speed", "engine speed", RotationalSpeed, |s, _| Some(s.engine_speed.base());
    "power", "brake power", Power, |s, _| Some(s.power.base());
    "metal", "hot metal", Temperature, |s, _| Some(s.metal.base());
    "block", "block", Temperature, |s, _| Some(s.block.base());
    "coolant", "coolant at the engine", Temperature, |s, _| Some(s.coolant.base());
    "radiator_outlet", "coolant from the radiator", Temperature, |s, _| Some(s.radiator_outlet.base());
    "hoses", "coolant in heater and hoses", Temperature, |s, _| Some(s.hoses.base());
    "oil", "oil", Temperature, |s, _| Some(s.oil.base());
    "tank", "tank", Temperature, |s, _| Some(s.tank.base());
    "opening", "thermostat opening", Share, |s, _| Some(s.opening.base());
    "fan", "fan on", Number, |s, _| Some(f64::from(u8::from(s.fan)));
    "radiator_heat", "heat by the radiator", Power, |s, _| Some(s.radiator_heat.base());
    "gauge", "system pressure gauge", GaugePressure, |s, _| Some(s.gauge.base());
    "cap", "cap lets out 1 or in -1", Number, |s, _| Some(match s.cap {
        CapState::Shut => 0.0,
        CapState::LetsOut => 1.0,
        CapState::LetsIn => -1.0,
    });
    "tank_gauge", "tank pressure gauge", GaugePressure, |s, _| Some(s.tank_gauge.base());
    "in_tank", "liquid in the tank", Volume, |s, _| Some(s.in_tank.base());
    "level", "level in the tank", Length, |s, _| s.level.map(Measured::base);
    "air_in_system", "air in the system", Volume, |s, _| Some(s.air_in_system.base());
    "vapour", "vapour", Volume, |s, _| Some(s.vapour.base());
    "out", "coolant out of the system", Mass, |s, _| Some(s.out.base());
    "lost", "coolant lost", Mass, |s, _| Some(s.lost.base());
    "margin", "boiling margin", TemperatureDifference, |s, _| Some(s.margin.base());
    "crankcase", "crankcase pressure gauge", CrankcasePressure, |_, c| c.gauge.map(Measured::base);
    "oil_out", "oil out with the gas", SmallMass, |_, c| Some(c.oil_out.base());
    "oil_caught", "oil caught", SmallMass, |_, c| Some(c.oil_caught.base());
};

fn number(base: f64, kind: Kind, system: UnitSystem) -> Json {
    serde_json::Number::from_f64(kind.unit(system).from_base(base)).map_or(Json::Null, Json::Number)
}

fn amount(amount: Amount, system: UnitSystem) -> Json {
    json!({ "value": number(amount.base, amount.kind, system), "unit": amount.kind.unit(system).symbol })
}

impl DayAnswers {
    /// Everything of the day for programs, times in seconds since it began.
    #[must_use]
    pub fn to_json(&self, system: UnitSystem) -> Map<String, Json> {
        let sections: Vec<_> = self.sections().into_iter().filter(|section| section.key != "day_events").collect();
        let mut whole = to_json(&sections, system, &[]);
        let verdicts: Map<String, Json> =
            self.verdicts.iter().map(|one| (one.key.to_owned(), verdict_json(one, system, &[]))).collect();
        whole.insert("verdicts".to_owned(), verdicts.into());
        whole.insert("extremes".to_owned(), self.extremes_json(system));
        let events = self.drive.events.iter().map(|event| {
            json!({
                "time": event.time.base(),
                "until": event.kind.until().map(Measured::base),
                "leg": event.leg + 1,
                "kind": event.kind.key(),
                "words": self.event_words(event).show(system),
            })
        });
        whole.insert("events".to_owned(), events.collect());
        let trifles = self.trifles_words().map(|words| words.show(system));
        whole.insert("trifles".to_owned(), json!(trifles));
        let rows = || self.drive.samples.iter().zip(&self.crankcase);
        let series: Map<String, Json> = COLUMNS
            .iter()
            .map(|column| {
                let figure = |at: Option<f64>| at.map_or(Json::Null, |base| number(base, column.kind, system));
                let values: Json = rows().map(|(sample, crankcase)| figure((column.of)(sample, crankcase))).collect();
                (column.key.to_owned(), json!({ "unit": column.kind.unit(system).symbol, "values": values }))
            })
            .collect();
        whole.insert("series".to_owned(), series.into());
        whole.insert("notes".to_owned(), self.notes.iter().map(|note| note.text.as_str()).collect());
        whole
    }

    fn extremes_json(&self, system: UnitSystem) -> Json {
        let of = |drive, of: ExtremeOf| {
            worst(drive, of).map(|sample| {
                json!({ "is": amount(of.amount(sample), system), "time": sample.time.base(), "leg": sample.leg + 1 })
            })
        };
        let all: Map<String, Json> = ExtremeOf::ALL
            .into_iter()
            .map(|one| {
                let both = json!({ "likely": of(&self.drive, one), "unfavourable": of(&self.unfavourable, one) });
                (one.key().to_owned(), both)
            })
            .collect();
        all.into()
    }
}
