//! The steps: what each reads, what it works out, and each line of it as it is worked out.

pub(super) mod accessories;
pub(super) mod belt;
pub(super) mod charging;
pub(super) mod fitting;
pub(super) mod grip;
pub(super) mod pump;
pub(super) mod speeds;

use super::declared::{DUTY, Duty, PULLEYS};
use crate::plan::{Case, Step};
use crate::report::Unknown;

pub(super) const ALL: &[Step] = &[
    speeds::RATIOS,
    speeds::ROWS,
    speeds::ALTERNATOR,
    speeds::PUMP,
    belt::PATH,
    fitting::REACH,
    fitting::BELT,
    charging::OUTPUT,
    pump::FLOW,
    pump::CAVITATION,
    accessories::ACCESSORIES,
    grip::TENSIONS,
];

/// First pulley of this duty in the list; of crank, alternator and pump there may be only one.
fn first(case: &mut Case<'_>, duty: Duty) -> Result<usize, Unknown> {
    let single = matches!(duty, Duty::Crank | Duty::Alternator | Duty::Pump);
    let mut found = None;
    for row in 0..case.rows(PULLEYS) {
        if case.cell(DUTY, row)? == duty {
            if single && found.is_some() {
                return Err(Unknown::NoSolution("Crank, alternator and water pump have one pulley each in the list."));
            }
            found = found.or(Some(row));
        }
    }
    let why = match duty {
        // A pump of another drive is none of this one's.
        Duty::Pump => return found.ok_or(Unknown::NotHere("No pulley in the list is the water pump's.")),
        Duty::Crank => "No pulley in the list is the crank's.",
        Duty::Alternator => "No pulley in the list is the alternator's.",
        Duty::Idler => "No pulley in the list is an idler.",
        Duty::Tensioner => "No pulley in the list is a tensioner.",
        Duty::Other => "No pulley in the list belongs to another accessory.",
    };
    found.ok_or(Unknown::NoSolution(why))
}
