//! Slips of the finger: the word that was meant, and the syntax that was missed.

/// The known word with the fewest edits, when few enough to be a slip of the finger.
pub(super) fn nearest<'w>(word: &str, known: &[&'w str]) -> Option<&'w str> {
    // Nobody slips this often; a file of another kind may hold a word as long as itself.
    if word.len() > 64 {
        return None;
    }
    known
        .iter()
        .map(|&candidate| (edits(word, candidate), candidate))
        .filter(|&(distance, candidate)| distance <= candidate.len().max(3) / 3)
        .min()
        .map(|(_, candidate)| candidate)
}

/// Levenshtein distance, row by row.
fn edits(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut above: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.chars().enumerate() {
        let mut left = i + 1;
        let mut row = vec![left];
        for (pair, to) in above.windows(2).zip(&b) {
            let [diagonal, up] = pair else { continue };
            left = (diagonal + usize::from(from != *to)).min(up + 1).min(left + 1);
            row.push(left);
        }
        above = row;
    }
    above.last().copied().unwrap_or_default()
}

/// A word cut to a length that fits a message.
pub(super) fn shortened(word: &str) -> String {
    const MOST: usize = 40;
    if word.chars().count() <= MOST {
        return word.to_owned();
    }
    word.chars().take(MOST).chain(['…']).collect()
}

/// What the TOML reader found, with what to do about it.
pub(super) fn syntax(found: &str) -> String {
    let found = found.replace('\n', ", ");
    let hint = match found.as_str() {
        "duplicate key" => "this name or heading stands twice; keep one of the two",
        _ => {
            "each line is a heading in square brackets, or a name, an equals sign and a value; text and quantities stand in double quotes"
        }
    };
    format!("this is not well-formed TOML ({found}); {hint}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_edits() {
        assert_eq!(edits("", ""), 0);
        assert_eq!(edits("", "bore"), 4);
        assert_eq!(edits("bore", ""), 4);
        assert_eq!(edits("kitten", "sitting"), 3);
        assert_eq!(edits("vent_diamter", "vent_diameter"), 1);
    }

    #[test]
    fn means_only_what_is_near() {
        assert_eq!(nearest("vent_diamter", &["vent", "vent_diameter", "height"]), Some("vent_diameter"));
        assert_eq!(nearest("colour", &["vent", "vent_diameter", "height"]), None);
        assert_eq!(nearest(&"x".repeat(100_000), &["vent"]), None);
    }
}
