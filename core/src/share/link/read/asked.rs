//! What a link asks a tool.

use super::values::{not_whole, out_of_range};
use super::{Fault, QUOTED, Reader};
use crate::build::Refusal;
use crate::entry::{clean, read_quantity};
use crate::share::LinkProblem;
use crate::share::link::{Asked, Tool};
use crate::share::problem::Stands;
use crate::spec::{Kind, Place, Role};

/// Every setting of a tool, places before the numbers that belong to them.
pub(super) const KEYS: [&str; 8] = ["turn", "across", "watch", "from", "to", "across-from", "across-to", "target"];

/// The settings that a tool has.
fn settings(tool: Tool) -> &'static [&'static str] {
    match tool {
        Tool::Sweep => &["turn", "watch", "from", "to"],
        Tool::Map => &["turn", "across", "from", "to", "across-from", "across-to"],
        Tool::Solve => &["turn", "watch", "target"],
        Tool::Spread => &["watch"],
        Tool::Combine | Tool::Beside | Tool::Parts => &[],
    }
}

impl Reader {
    /// Takes the settings of the tool asked for, once the rows are there.
    pub(super) fn asked(&mut self, pairs: &[(&str, &str)]) {
        for key in KEYS {
            let Some(&(_, value)) = pairs.iter().find(|pair| pair.0 == key) else { continue };
            let taken = match self.link.asked {
                Some(mut asked) if settings(asked.tool).contains(&key) => self.setting(&mut asked, key, value).map(|()| asked),
                _ => Err(not_of_it(key, value)),
            };
            match taken {
                Ok(asked) => self.link.asked = Some(asked),
                Err(problem) => self.problems.add(*problem),
            }
        }
    }

    fn setting(&mut self, asked: &mut Asked, key: &'static str, value: &str) -> Result<(), Fault> {
        match key {
            "turn" => asked.turn = Some(self.named(key, value, Role::Input, asked.tool == Tool::Map)?),
            "across" => asked.across = Some(self.named(key, value, Role::Input, true)?),
            "watch" => asked.watch = Some(self.named(key, value, Role::Output, true)?),
            "from" => asked.range[0] = Some(self.number(key, value, asked.turn)?),
            "to" => asked.range[1] = Some(self.number(key, value, asked.turn)?),
            "across-from" => asked.across_range[0] = Some(self.number(key, value, asked.across)?),
            "across-to" => asked.across_range[1] = Some(self.number(key, value, asked.across)?),
            _ => asked.target = Some(self.number(key, value, asked.watch)?),
        }
        Ok(())
    }

    /// An input that can be turned, or an output that is a number.
    pub(super) fn named(&mut self, key: &str, value: &str, role: Role, quantity: bool) -> Result<Place, Fault> {
        let layout = self.link.build.layout().clone();
        let place = layout.place_by_key(value).ok_or_else(|| Box::new(self.no_key(value)))?;
        let fits = match layout.kind(place.id) {
            Kind::Quantity { .. } => true,
            Kind::Choice(_) => !quantity,
            Kind::Text(_) => false,
        };
        if layout.find(place).is_none() {
            return Err(Box::new(LinkProblem::NoSuchRow { key: clean(value, QUOTED) }));
        }
        if layout.spec(place.id).role != role || !fits {
            return Err(not_of_it(key, value));
        }
        Ok(place)
    }

    /// A number of the kind of that place.
    pub(super) fn number(&self, key: &str, value: &str, place: Option<Place>) -> Result<f64, Fault> {
        let layout = self.link.build.layout();
        let (Some(place), Some(Kind::Quantity { dimension, unit })) = (place, place.map(|place| layout.kind(place.id))) else {
            return Err(not_of_it(key, value));
        };
        let spec = layout.spec(place.id);
        let si = read_quantity(value, dimension, unit)
            .map_err(|why| Box::new(LinkProblem::NotAQuantity { key: key.into(), label: spec.label, stands: Stands::Usual, why }))?;
        match self.link.build.check(place, si) {
            Err(Refusal::OutOfRange(ends)) if spec.role == Role::Input => {
                Err(Box::new(out_of_range(key.into(), spec.label, Stands::Usual, si, unit, ends)))
            }
            Err(Refusal::NotWhole) if spec.role == Role::Input => Err(Box::new(not_whole(key.into(), spec.label, Stands::Usual, si, unit))),
            // One zero, so that equal settings have equal bits.
            _ => Ok(if si == 0.0 { 0.0 } else { si }),
        }
    }
}

pub(super) fn not_of_it(key: &str, value: &str) -> Fault {
    Box::new(LinkProblem::Item { item: clean(&format!("{key}={value}"), QUOTED) })
}
