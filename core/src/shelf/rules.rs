//! Rules between parts as sets, so that thousands of combinations are judged by a few words each.

use super::problem::Problems;
use super::{Asks, At, Fault, Name, Part, Rule, Shelf};

/// A set of parts, by their places in [`Rules`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Bits(Vec<u64>);

impl Bits {
    pub(crate) fn none(of: usize) -> Self {
        Self(vec![0; of.div_ceil(64)])
    }

    pub(crate) fn add(&mut self, at: usize) {
        self.0[at / 64] |= 1 << (at % 64);
    }

    pub(crate) fn take(&mut self, at: usize) {
        self.0[at / 64] &= !(1 << (at % 64));
    }

    pub(crate) fn has(&self, at: usize) -> bool {
        self.0[at / 64] >> (at % 64) & 1 == 1
    }

    pub(crate) fn meets(&self, other: &Self) -> bool {
        self.0.iter().zip(&other.0).any(|(one, other)| one & other != 0)
    }

    pub(crate) fn join(&mut self, other: &Self) {
        self.0.iter_mut().zip(&other.0).for_each(|(one, other)| *one |= other);
    }

    fn members(&self) -> impl Iterator<Item = usize> + '_ {
        (0..64 * self.0.len()).filter(|&at| self.has(at))
    }
}

/// The rules of all parts of some shelves, counted as [`At::all`] gives them.
#[derive(Debug)]
pub(crate) struct Rules {
    /// Per part: those that cannot be fitted with it, whichever of the two says so. Not those of its own slot.
    pub(crate) forbids: Vec<Bits>,
    /// Per part: of each of these sets one has to be fitted with it.
    pub(crate) demands: Vec<Vec<Bits>>,
    /// Per part: the others of its slot.
    rivals: Vec<Bits>,
}

/// Whether a rule of a part of `shelf` means this part when it says `name`.
pub(super) fn means(shelves: &[Shelf], shelf: usize, name: &Name, it: At) -> bool {
    let Some(part) = it.of(shelves) else { return false };
    let slot = &shelves[it.shelf].slot_of(part).id;
    match name {
        Name::Part(at) => it == At { shelf, part: *at },
        Name::Slot(at) => *slot == shelves[shelf].slots[*at].id,
        Name::Elsewhere(id) => slot == id,
    }
}

/// Whether two parts set one input to two values.
pub(super) fn at_odds(one: &Part, other: &Part) -> bool {
    one.sets.iter().any(|(place, value)| other.sets.iter().any(|(same, differs)| place == same && value.to_bits() != differs.to_bits()))
}

impl Rules {
    pub(crate) fn new(shelves: &[Shelf]) -> Self {
        let parts: Vec<At> = At::all(shelves).collect();
        let parts = parts.as_slice();
        let count = parts.len();
        let none = Bits::none(count);
        let mut rules = Self { forbids: vec![none.clone(); count], demands: vec![Vec::new(); count], rivals: vec![none; count] };
        for (at, here) in parts.iter().enumerate() {
            let Some(part) = here.of(shelves) else { continue };
            for (other, there) in parts.iter().enumerate().filter(|(other, _)| *other != at) {
                let Some(its) = there.of(shelves) else { continue };
                if shelves[here.shelf].slot_of(part).id == shelves[there.shelf].slot_of(its).id {
                    rules.rivals[at].add(other);
                } else if at_odds(part, its) {
                    rules.forbid(at, other);
                }
            }
        }
        for (at, here) in parts.iter().enumerate() {
            for rule in here.of(shelves).iter().flat_map(|part| &part.rules) {
                rules.add(shelves, parts, at, rule);
            }
        }
        rules
    }

    fn forbid(&mut self, one: usize, other: usize) {
        self.forbids[one].add(other);
        self.forbids[other].add(one);
    }

    fn add(&mut self, shelves: &[Shelf], parts: &[At], at: usize, rule: &Rule) {
        let meant = |names: &[Name]| -> Vec<usize> {
            let means = |there: &At| names.iter().any(|name| means(shelves, parts[at].shelf, name, *there));
            (0..parts.len()).filter(|&other| other != at && means(&parts[other])).collect()
        };
        let set = |members: Vec<usize>| {
            let mut set = Bits::none(parts.len());
            members.into_iter().for_each(|member| set.add(member));
            set
        };
        match rule.asks {
            Asks::Needs => self.demands[at].extend(rule.of.iter().map(|name| set(meant(core::slice::from_ref(name))))),
            Asks::NeedsOneOf => self.demands[at].push(set(meant(&rule.of))),
            Asks::Excludes => meant(&rule.of).into_iter().for_each(|other| self.forbid(at, other)),
            Asks::OnlyWith => {
                let allowed = meant(&rule.of);
                let mut others = Bits::none(parts.len());
                allowed.iter().for_each(|&one| others.join(&self.rivals[one]));
                allowed.iter().for_each(|&one| others.take(one));
                others.take(at);
                others.members().collect::<Vec<_>>().into_iter().for_each(|other| self.forbid(at, other));
            }
        }
    }

    /// Whether some choice of parts that has this one fulfils every rule. Gives up after `looks`, and then says yes.
    pub(super) fn can_hold(&self, part: usize, looks: &mut u32) -> bool {
        let mut chosen = Bits::none(self.forbids.len());
        chosen.add(part);
        self.fulfil(&mut chosen, looks)
    }

    /// Whether these can be added to until no demand is left: any part that answers the first may be the one.
    fn fulfil(&self, chosen: &mut Bits, looks: &mut u32) -> bool {
        let demand = chosen.members().flat_map(|at| &self.demands[at]).find(|demand| !demand.meets(chosen));
        let Some(demand) = demand else { return true };
        for answer in demand.members() {
            if *looks == 0 {
                return true;
            }
            *looks -= 1;
            if self.forbids[answer].meets(chosen) || self.rivals[answer].meets(chosen) {
                continue;
            }
            chosen.add(answer);
            if self.fulfil(chosen, looks) {
                return true;
            }
            chosen.take(answer);
        }
        false
    }
}

/// Whether a part of a shelf can be chosen.
pub(super) fn can_hold(shelf: &Shelf, part: usize) -> bool {
    let shelves = core::slice::from_ref(shelf);
    part < shelf.parts.len() && Rules::new(shelves).can_hold(part, &mut { LOOKS })
}

/// As many parts are looked at for all the rules of a shelf.
const LOOKS: u32 = 200_000;

/// Looks for rules of a shelf that can never hold, and for parts that need one another.
///
/// A need of what is on no shelf here was said already; such parts are not said to be impossible too.
pub(super) fn look_over(shelf: &Shelf, problems: &mut Problems) {
    let shelves = core::slice::from_ref(shelf);
    let rules = Rules::new(shelves);
    let mut looks = LOOKS;
    for (at, part) in shelf.parts.iter().enumerate() {
        let waits = part.rules.iter().any(|rule| rule.of.iter().any(|name| matches!(name, Name::Elsewhere(_))));
        if !waits && !rules.can_hold(at, &mut looks) {
            problems.add(&part.name, Fault::NeverHolds);
        }
        if let Some(circle) = circle(shelf, at) {
            let names: Vec<&str> = circle.iter().map(|&part| shelf.parts[part].name.as_str()).collect();
            problems.add(&part.name, Fault::Cycle(names.join(" → ")));
        }
    }
}

/// The shortest way by needs from a part back to it; none where the file has an earlier part on it, which tells of it.
fn circle(shelf: &Shelf, start: usize) -> Option<Vec<usize>> {
    let needs = |at: usize| {
        let rules =
            shelf.parts[at].rules.iter().filter(|rule| rule.asks == Asks::Needs || (rule.asks == Asks::NeedsOneOf && rule.of.len() == 1));
        rules.flat_map(|rule| &rule.of).filter_map(|name| if let Name::Part(at) = name { Some(*at) } else { None })
    };
    let mut came_from = vec![None; shelf.parts.len()];
    let mut waiting = std::collections::VecDeque::from([start]);
    while let Some(at) = waiting.pop_front() {
        for next in needs(at) {
            if next == start {
                let mut way = vec![start];
                let mut back = at;
                while back != start {
                    way.push(back);
                    back = came_from[back].unwrap_or(start);
                }
                way.push(start);
                way.reverse();
                return Some(way);
            }
            if next > start && came_from[next].is_none() {
                came_from[next] = Some(at);
                waiting.push_back(next);
            }
        }
    }
    None
}
