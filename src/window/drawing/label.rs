//! Labels find their places: near what they name, over no other label, and clear of hoses and small parts where they can.

use super::scene::{HEIGHT, Label, Side, TextLine, Tone, WIDTH};
use super::sketch::Measure;
use crate::window::tokens::size;
use egui::{Pos2, Rect, Vec2, pos2, vec2};

/// A label that looks for its place.
#[derive(Clone, Debug)]
pub struct Wish {
    lines: Vec<TextLine>,
    /// Of each line, whether it tells what changes through a day.
    live: Vec<bool>,
    anchor: Pos2,
    tries: Vec<(Side, Vec2)>,
    led: bool,
    fixed: bool,
}

/// How much larger the letters of a terse drawing are.
const TERSE: f32 = 1.35;
/// Room kept free round a label.
const GAP: f32 = 1.5;

impl Wish {
    /// A label for what is at `anchor`.
    pub fn new(anchor: Pos2) -> Self {
        Self { lines: Vec::new(), live: Vec::new(), anchor, tries: Vec::new(), led: false, fixed: false }
    }

    /// A line of usual words.
    pub fn words(self, text: impl Into<String>) -> Self {
        self.line(text, size::SMALL, false, Tone::Ink)
    }

    /// A line of lesser words.
    pub fn quiet(self, text: impl Into<String>) -> Self {
        self.line(text, size::SMALL, false, Tone::Quiet)
    }

    /// A line that matters.
    pub fn strong(self, text: impl Into<String>, tone: Tone) -> Self {
        self.line(text, size::SMALL + 1.0, true, tone)
    }

    /// A line.
    pub fn line(mut self, text: impl Into<String>, size: f32, strong: bool, tone: Tone) -> Self {
        let text = text.into();
        if !text.is_empty() {
            self.lines.push(TextLine { text, size, strong, tone });
            self.live.push(false);
        }
        self
    }

    /// The line just added tells what changes through a day: a terse drawing keeps it.
    pub fn live(mut self) -> Self {
        if let Some(last) = self.live.last_mut() {
            *last = true;
        }
        self
    }

    /// What is left of it in a terse drawing.
    pub fn terse(&self) -> Self {
        let kept = self.lines.iter().zip(&self.live).filter(|(_, live)| **live);
        let lines = kept.map(|(line, _)| TextLine { size: line.size * TERSE, ..line.clone() }).collect();
        Self { lines, ..self.clone() }
    }

    /// Try with its left, middle or right at an offset from the anchor, its height centred there.
    pub fn at(mut self, side: Side, x: f32, y: f32) -> Self {
        self.tries.push((side, vec2(x, y)));
        self
    }

    /// Joined to its anchor by a hairline.
    pub fn led(mut self) -> Self {
        self.led = true;
        self
    }

    /// At its first place whatever lies there: words inside a part.
    pub fn inside(mut self) -> Self {
        self.fixed = true;
        self
    }
}

/// Places the labels, those that cannot move first.
pub fn place(wishes: &[Wish], busy: &[Rect], measure: Measure<'_>) -> Vec<Label> {
    let mut taken: Vec<Rect> = Vec::with_capacity(wishes.len());
    let mut found: Vec<(usize, Label)> = Vec::with_capacity(wishes.len());
    for pass in [true, false] {
        for (index, wish) in wishes.iter().enumerate() {
            if wish.lines.is_empty() || wish.fixed != pass {
                continue;
            }
            let (rect, side) = best(wish, extent(wish, measure), busy, &taken);
            taken.push(rect.expand(GAP));
            let leader = if wish.led { leader(wish.anchor, rect) } else { None };
            found.push((index, Label { lines: wish.lines.clone(), place: rect, side, leader }));
        }
    }
    found.sort_by_key(|(index, _)| *index);
    found.into_iter().map(|(_, label)| label).collect()
}

fn extent(wish: &Wish, measure: Measure<'_>) -> Vec2 {
    wish.lines.iter().fold(Vec2::ZERO, |sum, line| {
        let own = measure(&line.text, line.size, line.strong);
        vec2(sum.x.max(own.x), sum.y + own.y)
    })
}

fn set(anchor: Pos2, side: Side, offset: Vec2, extent: Vec2) -> Rect {
    let at = anchor + offset;
    let left = match side {
        Side::Left => at.x,
        Side::Middle => at.x - extent.x / 2.0,
        Side::Right => at.x - extent.x,
    };
    // Never out of the drawing.
    let left = left.min(WIDTH - 4.0 - extent.x).max(4.0);
    let top = (at.y - extent.y / 2.0).min(HEIGHT - 2.0 - extent.y).max(2.0);
    Rect::from_min_size(pos2(left, top), extent)
}

fn shared(a: Rect, b: Rect) -> f32 {
    let both = a.intersect(b);
    if both.is_positive() { both.area() } else { 0.0 }
}

fn best(wish: &Wish, extent: Vec2, busy: &[Rect], taken: &[Rect]) -> (Rect, Side) {
    let first = wish.tries.first().copied().unwrap_or((Side::Left, vec2(6.0, 0.0)));
    if wish.fixed {
        return (set(wish.anchor, first.0, first.1, extent), first.0);
    }
    let free = |rect: Rect| !taken.iter().any(|other| shared(rect, *other) > 0.0);
    let hidden = |rect: Rect| 3.0 * busy.iter().map(|other| shared(rect, *other)).sum::<f32>();
    let mut choice: Option<(f32, Rect, Side)> = None;
    let weigh = |choice: &mut Option<(f32, Rect, Side)>, rect: Rect, side: Side, dislike: f32| {
        if free(rect) {
            let across = if wish.led { crossings(wish.anchor, rect, busy) } else { 0.0 };
            let cost = hidden(rect) + dislike + across;
            if choice.is_none_or(|(least, _, _)| cost < least) {
                *choice = Some((cost, rect, side));
            }
        }
    };
    for (order, (side, offset)) in (0_u8..).zip(&wish.tries) {
        weigh(&mut choice, set(wish.anchor, *side, *offset, extent), *side, f32::from(order) * 6.0);
    }
    // Then further up and down, and last to the sides, each step disliked the more the further it is.
    for step in 1..=40_u8 {
        let far = f32::from(step) * 7.0;
        if choice.is_some_and(|(least, _, _)| least <= 20.0 + 2.0 * far) {
            break;
        }
        for (side, offset) in wish.tries.iter().take(2) {
            for shift in [vec2(0.0, far), vec2(0.0, -far), vec2(far, 0.0), vec2(-far, 0.0)] {
                let dislike = 20.0 + far * if shift.x == 0.0 { 2.0 } else { 3.0 };
                weigh(&mut choice, set(wish.anchor, *side, *offset + shift, extent), *side, dislike);
            }
        }
    }
    choice.map_or_else(|| (set(wish.anchor, first.0, first.1, extent), first.0), |(_, rect, side)| (rect, side))
}

/// What a leader runs across on its way is disliked too.
fn crossings(anchor: Pos2, rect: Rect, busy: &[Rect]) -> f32 {
    let Some([from, to]) = leader(anchor, rect) else { return 0.0 };
    let crossed = busy.iter().filter(|other| {
        !other.expand(1.0).contains(from)
            && (1..12_u8).any(|step| other.contains(from.lerp(to, f32::from(step) / 12.0)))
    });
    40.0 * crossed.count() as f32
}

/// From the anchor to the near edge of a label, unless it lies right beside it.
fn leader(anchor: Pos2, rect: Rect) -> Option<[Pos2; 2]> {
    let near = pos2(
        if anchor.x < rect.left() {
            rect.left() - 2.0
        } else if anchor.x > rect.right() {
            rect.right() + 2.0
        } else {
            rect.center().x
        },
        rect.center().y,
    );
    ((near - anchor).length() > 4.0).then_some([anchor, near])
}
