//! What can be said of a network before its pressures are known: which nodes reach a given pressure, and whether a
//! depression-operated valve is the only way out.

use super::{Hold, MOST_NODES, Network, NetworkError};

/// A part of the network whose only way to a given pressure is one depression-operated valve.
pub(super) struct Sealed {
    /// The valve.
    pub(super) edge: usize,
    /// The nodes ahead of it.
    pub(super) inside: [bool; MOST_NODES],
    /// What is injected there, kg/s.
    pub(super) injected: f64,
}

impl Network {
    /// The nodes reached from one without passing through a fixed node, leaving out one element, and whether any
    /// fixed node is reached.
    fn reached(&self, from: usize, without: Option<usize>) -> ([bool; MOST_NODES], bool) {
        let mut inside = [false; MOST_NODES];
        let mut fixed = false;
        let mut queue = [0; MOST_NODES];
        let mut waiting = 1;
        queue[0] = from;
        inside[from] = true;
        while waiting > 0 {
            waiting -= 1;
            let node = queue[waiting];
            for (i, edge) in self.edges.iter().enumerate() {
                if Some(i) == without {
                    continue;
                }
                let other = if edge.from == node {
                    edge.to
                } else if edge.to == node {
                    edge.from
                } else {
                    continue;
                };
                if matches!(self.nodes[other].hold, Hold::Fixed(_)) {
                    fixed = true;
                } else if !inside[other] {
                    inside[other] = true;
                    queue[waiting] = other;
                    waiting += 1;
                }
            }
        }
        (inside, fixed)
    }

    /// Refuses a free node from which no given pressure is reached.
    pub(super) fn check_paths(&self) -> Result<(), NetworkError> {
        let mut seen = [false; MOST_NODES];
        for (i, node) in self.nodes.iter().enumerate() {
            if seen[i] || matches!(node.hold, Hold::Fixed(_)) {
                continue;
            }
            let (inside, fixed) = self.reached(i, None);
            if !fixed {
                return Err(NetworkError::NoExit { node: node.name.to_string() });
            }
            for (seen, inside) in seen.iter_mut().zip(inside) {
                *seen |= inside;
            }
        }
        Ok(())
    }

    /// The valve that is the only way out, if one is.
    pub(super) fn sealed_by(&self) -> Result<Option<Sealed>, NetworkError> {
        for (i, edge) in self.edges.iter().enumerate() {
            if !edge.element.is_depression_operated() || matches!(self.nodes[edge.from].hold, Hold::Fixed(_)) {
                continue;
            }
            let (inside, fixed) = self.reached(edge.from, Some(i));
            if fixed || inside[edge.to] {
                continue;
            }
            let injected = self
                .nodes
                .iter()
                .zip(inside)
                .filter_map(|(node, inside)| match node.hold {
                    Hold::Free(injected) if inside => Some(injected),
                    _ => None,
                })
                .sum();
            return Ok(Some(Sealed { edge: i, inside, injected }));
        }
        Ok(None)
    }
}
