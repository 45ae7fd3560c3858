//! Project files: versioned TOML that a person can read, written so that a failure never costs the old file.

mod read;
mod write;

pub use read::{FORMAT, FORMAT_KEY, read_project};
pub use write::write_project;

use crate::quantity::UnitSystem;
use crate::study::Project;
use std::io::Write as _;
use std::path::Path;
use toml::de::{DeTable, DeValue};

/// One fault of a file: where it stands and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// The line, counted from one; `None` where something is missing.
    pub line: Option<usize>,
    /// The path of the input: `tank.vent_diameter`.
    pub path: String,
    /// The sentence a person reads.
    pub message: String,
}

impl std::fmt::Display for FileFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if let Some(line) = self.line {
            write!(f, "line {line}: ")?;
        }
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        f.write_str(&self.message)
    }
}

/// Why a file could not be opened or saved.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// The system refused.
    #[error("cannot {act} {path}: {cause}")]
    System {
        /// "read" or "write".
        act: &'static str,
        /// The file.
        path: String,
        /// What the system said.
        cause: std::io::Error,
    },
    /// The file is too large to be a project.
    #[error("{path} is {size} bytes long; a project file has a few thousand. It was not read")]
    TooLarge {
        /// The file.
        path: String,
        /// Its size in bytes.
        size: u64,
    },
    /// The file has faults.
    #[error("{path} has {} fault(s):\n{}", .faults.len(), list(.faults))]
    Faults {
        /// The file.
        path: String,
        /// All of them.
        faults: Vec<FileFault>,
    },
}

fn list(faults: &[FileFault]) -> String {
    faults.iter().map(|fault| format!("  {fault}")).collect::<Vec<_>>().join("\n")
}

const LARGEST: u64 = 1 << 20;

/// Opens a project file.
///
/// # Errors
/// When it cannot be read, is far too large, or has faults (all of them are given).
pub fn open(path: &Path) -> Result<Project, FileError> {
    let shown = path.display().to_string();
    let system = |cause| FileError::System { act: "read", path: shown.clone(), cause };
    let size = std::fs::metadata(path).map_err(system)?.len();
    if size > LARGEST {
        return Err(FileError::TooLarge { path: shown, size });
    }
    let text = std::fs::read_to_string(path).map_err(system)?;
    read_project(&text).map_err(|faults| FileError::Faults { path: shown, faults })
}

/// Saves a project: written whole beside the target, forced to disk, then moved over it, so that the old file
/// stays intact if anything fails.
///
/// # Errors
/// When the folder cannot be written.
pub fn save(project: &Project, path: &Path, units: UnitSystem) -> Result<(), FileError> {
    let system = |cause| FileError::System { act: "write", path: path.display().to_string(), cause };
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let mut beside = tempfile::Builder::new().prefix(".coldmark-").tempfile_in(folder).map_err(system)?;
    beside.write_all(write_project(project, units).as_bytes()).map_err(system)?;
    beside.as_file().sync_all().map_err(system)?;
    // A new file is private by default; keep the permissions of the one it replaces, else those of a usual file.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let mode = std::fs::metadata(path).map_or(0o644, |old| old.permissions().mode());
        beside.as_file().set_permissions(std::fs::Permissions::from_mode(mode)).map_err(system)?;
    }
    beside.persist(path).map_err(|error| system(error.error))?;
    Ok(())
}

/// Finds the line of an input by its path.
struct Locator<'t> {
    table: &'t DeTable<'t>,
    lines: read::Lines,
}

impl<'t> Locator<'t> {
    fn new(table: &'t DeTable<'t>, text: &str) -> Self {
        Self { table, lines: read::Lines::new(text) }
    }

    /// The line of the deepest part of the path that the file has.
    fn line(&self, path: &str) -> Option<usize> {
        let mut table = self.table;
        let mut line = None;
        for part in path.split('.') {
            let (key, row) = match part.split_once('[') {
                Some((key, row)) => (key, row.trim_end_matches(']').parse::<usize>().ok()),
                None => (part, None),
            };
            let Some((found, value)) = table.iter().find(|(found, _)| found.get_ref().as_ref() == key) else { break };
            line = Some(self.lines.line(found.span().start));
            match (value.get_ref(), row) {
                (DeValue::Table(inner), _) => table = inner,
                (DeValue::Array(items), Some(row)) => {
                    let Some(item) = items.iter().nth(row.saturating_sub(1)) else { break };
                    line = Some(self.lines.line(item.span().start));
                    let DeValue::Table(inner) = item.get_ref() else { break };
                    table = inner;
                }
                _ => break,
            }
        }
        line
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_project_reads_back_the_same() {
        let mut project = Project::blank();
        project.title = "quotes \" and \\ and\nlines".to_owned();
        project.circuit.knowledge = crate::study::VolumeKnowledge::BuiltUp;
        project.circuit.hoses.push(Default::default());
        project.circuit.trapped_air =
            crate::quantity::parse_estimate("0.1 L (0 to 0.5 L)", crate::quantity::Kind::Volume, None).ok();
        project.blow_by.leak_down = vec![crate::quantity::Measured::from_base(0.05); 8];
        project.tank.shape = crate::study::ShapeKind::DipTable;
        for units in [UnitSystem::Si, UnitSystem::Us] {
            let text = write_project(&project, units);
            let read = read_project(&text).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}"));
            assert_eq!(write_project(&read, units), text);
            assert_eq!(read.tank.dips, project.tank.dips);
            assert_eq!(read.title, project.title);
            assert_eq!(read.circuit, project.circuit);
        }
    }
}
