//! Verdict chips: shape, word and colour say the same.

use super::mark::{Mark, paint_mark};
use crate::window::fonts::strong_family;
use crate::window::tokens::{Tokens, size, space, weight};
use egui::{CornerRadius, FontId, Id, Response, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// What can be said of a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Inside the limit with room to spare.
    Holds,
    /// Inside the limit by little.
    Thin,
    /// Outside the limit.
    DoesNotHold,
    /// Nothing can be said with what is known.
    NotKnown,
}

impl Verdict {
    /// The word a person reads.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Thin => "thin",
            Self::DoesNotHold => "does not hold",
            Self::NotKnown => "not known",
        }
    }

    /// The shape that says the same.
    #[must_use]
    pub const fn mark(self) -> Mark {
        match self {
            Self::Holds => Mark::Circle,
            Self::Thin => Mark::Diamond,
            Self::DoesNotHold => Mark::Triangle,
            Self::NotKnown => Mark::Square,
        }
    }
}

/// Rows of what would mend it that a chip shows, unless its first clause alone takes more.
const MEND_ROWS: usize = 3;

/// Where the clauses of a sentence end: at each semicolon outside brackets, and at its end.
fn clauses(words: &str) -> Vec<usize> {
    let mut depth = 0_u32;
    let mut ends = Vec::new();
    for (at, letter) in words.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            ';' if depth == 0 => ends.push(at),
            _ => {}
        }
    }
    ends.push(words.len());
    ends
}

/// The whole clauses of a sentence that fit, the first one whether it does or not, and a sign that there are more.
fn whole_clauses(words: &str, fits: impl Fn(&str) -> bool) -> String {
    let mut shown: Option<String> = None;
    for end in clauses(words) {
        let (before, after) = words.split_at_checked(end).unwrap_or((words, ""));
        let more = match after.trim_start_matches([';', ' ']) {
            "" => "",
            rest if rest.starts_with("or ") => "; or …",
            _ => "; …",
        };
        let text = [before, more].concat();
        if shown.is_none() || fits(&text) {
            shown = Some(text);
        }
    }
    shown.unwrap_or_default()
}

/// A chip in the strip of verdicts; a click goes to the part.
pub struct VerdictChip<'a> {
    id: Id,
    verdict: Verdict,
    title: &'a str,
    line: &'a str,
    mend: &'a str,
    tag: &'a str,
    chosen: bool,
    height: f32,
}

impl<'a> VerdictChip<'a> {
    /// A chip: what is judged, and in one line the margin or the miss.
    #[must_use]
    pub fn new(id: Id, verdict: Verdict, title: &'a str, line: &'a str) -> Self {
        Self { id, verdict, title, line, mend: "", tag: "", chosen: false, height: 0.0 }
    }

    /// The smallest change that would mend it, or what the margin rests on.
    #[must_use]
    pub fn mend(mut self, mend: &'a str) -> Self {
        self.mend = mend;
        self
    }

    /// A word or two after the title: by what it goes.
    #[must_use]
    pub fn tag(mut self, tag: &'a str) -> Self {
        self.tag = tag;
        self
    }

    /// Whether its part is the one open beside the drawing.
    #[must_use]
    pub fn chosen(mut self, chosen: bool) -> Self {
        self.chosen = chosen;
        self
    }

    /// At least this high, so that the chips of a strip line up.
    #[must_use]
    pub fn at_least(mut self, height: f32) -> Self {
        self.height = height;
        self
    }

    /// Shows the chip in the whole width available.
    pub fn show(self, ui: &mut Ui) -> Response {
        let tokens = Tokens::here(ui);
        let width = ui.available_width();
        let inside = (width - 2.0 * space::CARD).max(40.0);
        let indent = size::MARK + space::ROW;
        let layout = |text: String, font, colour, width: f32| ui.painter().layout(text, font, colour, width);
        let title = layout(
            self.title.to_owned(),
            FontId::new(size::BODY, strong_family()),
            tokens.ink,
            (inside - indent).max(40.0),
        );
        let says = if self.line.is_empty() {
            self.verdict.word().to_owned()
        } else {
            format!("{}: {}", self.verdict.word(), self.line)
        };
        let line = layout(says.clone(), FontId::proportional(size::BODY), tokens.ink, inside);
        // What would mend it may be long: its first way stands here whole, all of it with the part.
        let mend = (!self.mend.is_empty()).then(|| {
            let set = |words: String| layout(words, FontId::proportional(size::SMALL), tokens.quiet, inside);
            set(whole_clauses(self.mend, |words| set(words.to_owned()).rows.len() <= MEND_ROWS))
        });
        let rows = [Some(&title), Some(&line), mend.as_ref()];
        let text_height: f32 = rows.iter().flatten().map(|galley| galley.size().y + space::TIGHT).sum();
        let height = (text_height + 2.0 * 10.0 - space::TIGHT).max(self.height);
        let (place, _) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
        let response = ui.interact(place, self.id, Sense::click());
        let more = |words: &str| if words.is_empty() { String::new() } else { format!(". {words}") };
        let name = format!("{}: {says}{}{}", self.title, more(self.tag), more(self.mend));
        response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), &name));

        let edge = if response.has_focus() {
            Stroke::new(weight::MEDIUM, tokens.focus)
        } else if self.chosen {
            tokens.outline()
        } else if response.hovered() {
            Stroke::new(weight::THIN, tokens.quiet)
        } else {
            tokens.hairline()
        };
        let painter = ui.painter();
        painter.rect(place, CornerRadius::same(size::ROUND), tokens.card, edge, StrokeKind::Inside);
        let left = place.left() + space::CARD;
        if !self.tag.is_empty() {
            let tag = painter.layout_no_wrap(self.tag.to_owned(), FontId::proportional(size::SMALL), tokens.quiet);
            let at = pos2(place.right() - space::CARD - tag.size().x, place.top() + 11.0);
            // Where the title needs the room, the reason tells it.
            if at.x > left + indent + title.size().x + space::ROW {
                painter.galley(at, tag, tokens.quiet);
            }
        }
        let mut y = place.top() + 10.0;
        let mark = pos2(left + size::MARK / 2.0, y + title.size().y / 2.0);
        paint_mark(painter, mark, size::MARK, self.verdict.mark(), tokens);
        for (galley, x) in [(Some(title), left + indent), (Some(line), left), (mend, left)] {
            if let Some(galley) = galley {
                let height = galley.size().y;
                painter.galley(pos2(x, y), galley, tokens.ink);
                y += height + space::TIGHT;
            }
        }
        response
    }
}

#[cfg(test)]
mod tests {
    use super::whole_clauses;

    #[test]
    fn a_long_mend_ends_with_a_whole_clause() {
        let words = "a line of 22 mm bore (as likely; no more); or a valve of 30 mm²; or both";
        assert_eq!(whole_clauses(words, |_| true), words);
        assert_eq!(whole_clauses(words, |_| false), "a line of 22 mm bore (as likely; no more); or …");
        let short = |text: &str| text.chars().count() < 70;
        assert_eq!(
            whole_clauses(words, short),
            "a line of 22 mm bore (as likely; no more); or a valve of 30 mm²; or …"
        );
        assert_eq!(whole_clauses("slacken it; then look", |_| false), "slacken it; …");
        assert_eq!(whole_clauses("look", |_| false), "look");
        assert_eq!(whole_clauses("", |_| false), "");
    }
}
