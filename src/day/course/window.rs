//! What the engine does, averaged over windows of a time step.

use crate::day::Turning;
use crate::day::road::MOST_GEARS;
use crate::quantity::Measured;
use crate::quantity::si::{AngularVelocity, Power};

/// What was pushed for so long.
#[derive(Clone, Copy)]
struct Piece {
    lasts: f64,
    speed: f64,
    turning: Turning,
}

/// Takes steps in, gives windows out: how long, mean road speed in m/s, and the engine's mean.
pub(super) struct Windows {
    resolution: f64,
    sum: Sum,
    /// What of the last step lies beyond the window.
    beyond: Option<Piece>,
}

/// Integrals over time of the window being filled; SI.
#[derive(Default)]
struct Sum {
    lasts: f64,
    distance: f64,
    angle: f64,
    work: f64,
    missing: f64,
    overrun: f64,
    /// Neutral first.
    gears: [f64; MOST_GEARS + 1],
}

type Window = (f64, f64, Turning);

impl Windows {
    pub fn new(resolution: f64) -> Self {
        Self { resolution, sum: Sum::default(), beyond: None }
    }

    /// Adds a step, whatever is full then is had by [`Windows::full`].
    pub fn push(&mut self, lasts: f64, speed: f64, turning: &Turning) {
        self.fill(Piece { lasts, speed, turning: *turning });
    }

    fn fill(&mut self, piece: Piece) {
        let room = self.resolution - self.sum.lasts;
        // A rest of rounding is no window of its own.
        if piece.lasts > room + 1e-6 {
            self.sum.add(&Piece { lasts: room, ..piece });
            self.beyond = Some(Piece { lasts: piece.lasts - room, ..piece });
        } else {
            self.sum.add(&piece);
        }
    }

    /// A window that is full.
    pub fn full(&mut self) -> Option<Window> {
        if self.sum.lasts < self.resolution - 1e-6 {
            return None;
        }
        let window = std::mem::take(&mut self.sum).mean();
        if let Some(piece) = self.beyond.take() {
            self.fill(piece);
        }
        window
    }

    /// What is left at the end.
    pub fn rest(self) -> Option<Window> {
        self.sum.mean()
    }
}

impl Sum {
    fn add(&mut self, piece: &Piece) {
        let Piece { lasts, speed, turning } = piece;
        self.lasts += lasts;
        self.distance += lasts * speed;
        self.angle += lasts * turning.speed.base();
        self.work += lasts * turning.power.base();
        self.missing += lasts * turning.missing.base();
        if turning.overrun {
            self.overrun += lasts;
        }
        if let Some(gear) = self.gears.get_mut(turning.gear.unwrap_or(0)) {
            *gear += lasts;
        }
    }

    fn mean(self) -> Option<Window> {
        if self.lasts <= 0.0 {
            return None;
        }
        let longest = self.gears.iter().enumerate().fold(
            (0, 0.0),
            |best, (gear, &time)| {
                if time > best.1 { (gear, time) } else { best }
            },
        );
        let engine = Turning {
            speed: AngularVelocity::from_base(self.angle / self.lasts),
            power: Power::from_base(self.work / self.lasts),
            overrun: self.work <= 0.0 && self.overrun > self.lasts / 2.0,
            gear: (longest.0 > 0).then_some(longest.0),
            missing: Power::from_base(self.missing / self.lasts),
        };
        Some((self.lasts, self.distance / self.lasts, engine))
    }
}
