//! Projects nobody thought of: any input set to any value of its range.

use coldmark::quantity::{Estimate, Measured, Range};
use coldmark::study::{Choice, Count, Field, Label, Project, Visitor};
use proptest::prelude::*;

/// A project with a share of its inputs set by chance.
///
/// Which inputs change and what they become follows from the seed and the path of the input alone, and a smaller share
/// changes a part of the same inputs. A failing case therefore shrinks to the few inputs that matter.
#[derive(Clone, Copy)]
pub struct Chance {
    seed: u64,
    share: f64,
}

impl std::fmt::Debug for Chance {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "seed {:#x}, share {}", self.seed, self.share)
    }
}

/// Any seed, and shares from a few inputs to all.
pub fn chance() -> impl Strategy<Value = Chance> {
    let share = prop_oneof![4 => 0.0..0.08, 3 => 0.08..0.3, 1 => 0.3..1.0];
    (any::<u64>(), share).prop_map(|(seed, share)| Chance { seed, share })
}

impl Chance {
    /// The project after chance has had its way; `from` keeps what chance left alone.
    pub fn change(self, from: &Project) -> Project {
        let mut project = from.clone();
        project.visit(&mut Filler { chance: self, path: Vec::new() });
        // A changed number of cylinders asks for as many readings.
        let readings = &mut project.blow_by.leak_down;
        if let Some(first) = readings.first().copied() {
            readings.resize(project.engine.cylinders as usize, first);
        }
        project
    }
}

struct Filler {
    chance: Chance,
    path: Vec<String>,
}

/// Draws from a seed; the mixing function is SplitMix64.
struct Draws(u64);

impl Draws {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Evenly in [0, 1).
    fn even(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn below(&mut self, count: usize) -> usize {
        ((self.even() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// A value of a range: sometimes an end, over decades where the range spans many.
    fn within(&mut self, range: &Range) -> f64 {
        let (low, high) = (range.low, range.high);
        match self.below(12) {
            0 => low,
            1 => high,
            _ if low > 0.0 && high / low > 50.0 => (low.ln() + self.even() * (high / low).ln()).exp().clamp(low, high),
            _ => (low + self.even() * (high - low)).clamp(low, high),
        }
    }
}

impl Filler {
    /// Draws for an input if it is to be changed.
    fn draws(&mut self, key: &str) -> Option<Draws> {
        let path = self.path.iter().map(String::as_str).chain([key]).collect::<Vec<_>>().join(".");
        // FNV-1a over the path.
        let hash = path
            .bytes()
            .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
        let mut draws = Draws(hash ^ self.chance.seed);
        (draws.even() < self.chance.share).then_some(draws)
    }
}

impl Visitor for Filler {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.path.push(label.key.to_owned());
        body(self);
        self.path.pop();
    }

    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        if let Some(mut draws) = self.draws(field.key) {
            *value = Q::from_base(draws.within(&field.range));
        }
    }

    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _absent: &'static str) {
        if let Some(mut draws) = self.draws(field.key) {
            *value = (draws.below(3) > 0).then(|| Q::from_base(draws.within(&field.range)));
        }
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _default: Estimate<Q>) {
        if let Some(mut draws) = self.draws(field.key) {
            *value = match draws.below(4) {
                0 => None,
                1 => Some(Estimate::exact(Q::from_base(draws.within(&field.range)))),
                _ => {
                    let mut three = [(); 3].map(|()| draws.within(&field.range));
                    three.sort_by(f64::total_cmp);
                    let [low, likely, high] = three.map(Q::from_base);
                    Some(Estimate { low, likely, high })
                }
            };
        }
    }

    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C) {
        if let Some(mut draws) = self.draws(label.key) {
            *value = C::ALL[draws.below(C::ALL.len())];
        }
    }

    fn text(&mut self, _label: &'static Label, _value: &mut String) {}

    fn count(&mut self, count: &'static Count, value: &mut u32) {
        if let Some(mut draws) = self.draws(count.label.key) {
            *value = count.low + draws.below((count.high - count.low + 1) as usize) as u32;
        }
    }

    fn switch(&mut self, label: &'static Label, value: &mut bool) {
        if let Some(mut draws) = self.draws(label.key) {
            *value = draws.below(2) == 1;
        }
    }

    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        if let Some(mut draws) = self.draws(field.key) {
            let count = value.len().max(1);
            *value = (0..count).map(|_| Q::from_base(draws.within(&field.range))).collect();
        }
    }

    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        columns: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        if let Some(mut draws) = self.draws(label.key) {
            let rows = 2 + draws.below(6);
            let column = |draws: &mut Draws, range: &Range| {
                let mut all: Vec<f64> = (0..rows).map(|_| draws.within(range)).collect();
                all.sort_by(f64::total_cmp);
                all
            };
            let (first, second) = (column(&mut draws, &columns.0.range), column(&mut draws, &columns.1.range));
            *value = first.into_iter().zip(second).map(|(a, b)| (A::from_base(a), B::from_base(b))).collect();
        }
    }

    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        if let Some(mut draws) = self.draws(label.key) {
            value.resize_with(draws.below(5), T::default);
        }
        for (row, one) in value.iter_mut().enumerate() {
            self.path.push(format!("{}[{}]", label.key, row + 1));
            item(one, self);
            self.path.pop();
        }
    }
}

/// Every path a project shows, groups included.
#[derive(Default)]
pub struct Paths {
    path: Vec<String>,
    found: Vec<String>,
}

impl Paths {
    /// Whether a project has an input or a group of inputs of this path.
    pub fn has(project: &Project, path: &str) -> bool {
        let mut paths = Self::default();
        project.clone().visit(&mut paths);
        paths.found.iter().any(|found| found == path)
    }

    fn note(&mut self, key: &str) {
        self.found.push(self.path.iter().map(String::as_str).chain([key]).collect::<Vec<_>>().join("."));
    }
}

impl Visitor for Paths {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.note(label.key);
        self.path.push(label.key.to_owned());
        body(self);
        self.path.pop();
    }
    fn quantity<Q: Measured>(&mut self, field: &'static Field, _: &mut Q) {
        self.note(field.key);
    }
    fn optional<Q: Measured>(&mut self, field: &'static Field, _: &mut Option<Q>, _: &'static str) {
        self.note(field.key);
    }
    fn estimate<Q: Measured>(&mut self, field: &'static Field, _: &mut Option<Estimate<Q>>, _: Estimate<Q>) {
        self.note(field.key);
    }
    fn choice<C: Choice>(&mut self, label: &'static Label, _: &mut C) {
        self.note(label.key);
    }
    fn text(&mut self, label: &'static Label, _: &mut String) {
        self.note(label.key);
    }
    fn count(&mut self, count: &'static Count, _: &mut u32) {
        self.note(count.label.key);
    }
    fn switch(&mut self, label: &'static Label, _: &mut bool) {
        self.note(label.key);
    }
    fn readings<Q: Measured>(&mut self, field: &'static Field, _: &mut Vec<Q>) {
        self.note(field.key);
    }
    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        _: (&'static Field, &'static Field),
        _: &mut Vec<(A, B)>,
    ) {
        self.note(label.key);
    }
    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        self.note(label.key);
        for (row, one) in value.iter_mut().enumerate() {
            self.path.push(format!("{}[{}]", label.key, row + 1));
            item(one, self);
            self.path.pop();
        }
    }
}
