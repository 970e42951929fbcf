//! Which unit each sort of quantity is shown in, as the trade mixes them.

use crate::quantity::{Dimension, Unit};

/// Quantities that are written in one unit or another, each sort by itself.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Sort {
    /// Lengths but for bores; areas and volumes with them.
    Length,
    /// Bores of cylinders.
    Bore,
    /// Conductors by their area.
    Conductor,
    /// Torques.
    Torque,
    /// Forces, and what springs have for each travel.
    Force,
    /// Pressures.
    Pressure,
    /// Temperatures and their differences.
    Temperature,
    /// Speeds.
    Speed,
    /// Masses and moments of inertia.
    Mass,
    /// Powers.
    Power,
}

/// One of the ways a sort is shown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Way {
    /// In links and as kept; letters and figures alone, frozen once shipped.
    pub key: &'static str,
    /// Its unit, or the most usual of its units.
    pub label: &'static str,
    /// Units it takes the place of: neither first nor last of its sort has any, which are the declared and the imperial.
    instead: &'static [(&'static str, &'static str)],
}

const fn way(key: &'static str, label: &'static str) -> Way {
    Way { key, label, instead: &[] }
}

impl Sort {
    /// All of them; their places are those in [`System`].
    pub const ALL: [Self; 10] = [
        Self::Length,
        Self::Bore,
        Self::Conductor,
        Self::Torque,
        Self::Force,
        Self::Pressure,
        Self::Temperature,
        Self::Speed,
        Self::Mass,
        Self::Power,
    ];

    /// In links and as kept: a word of letters, frozen once shipped.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Bore => "bore",
            Self::Conductor => "wire",
            Self::Torque => "torque",
            Self::Force => "force",
            Self::Pressure => "pressure",
            Self::Temperature => "temperature",
            Self::Speed => "speed",
            Self::Mass => "mass",
            Self::Power => "power",
        }
    }

    /// The metric way first, the imperial last.
    #[must_use]
    pub const fn ways(self) -> &'static [Way] {
        match self {
            Self::Length | Self::Bore => &const { [way("mm", "mm"), way("in", "in")] },
            Self::Conductor => &const { [way("mm2", "mm²"), way("awg", "AWG")] },
            Self::Torque => {
                &const { [way("nm", "N·m"), Way { instead: &[("N·m", "kgf·m")], ..way("kgfm", "kgf·m") }, way("lbfft", "lbf·ft")] }
            }
            Self::Force => {
                const KGF: &[(&str, &str)] = &[("N", "kgf"), ("kN", "kgf"), ("N/mm", "kgf/mm")];
                &const { [way("n", "N"), Way { instead: KGF, ..way("kgf", "kgf") }, way("lbf", "lbf")] }
            }
            Self::Pressure => &const { [way("bar", "bar"), Way { instead: &[("bar", "kPa")], ..way("kpa", "kPa") }, way("psi", "psi")] },
            Self::Temperature => &const { [way("c", "°C"), way("f", "°F")] },
            Self::Speed => &const { [way("kmh", "km/h"), way("mph", "mph")] },
            Self::Mass => &const { [way("kg", "kg"), way("lb", "lb")] },
            Self::Power => &const { [way("kw", "kW"), Way { instead: &[("kW", "PS")], ..way("ps", "PS") }, way("hp", "hp")] },
        }
    }
}

/// Which units people prefer to see: of each [`Sort`], by its place, which of its ways.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct System([u8; Sort::ALL.len()]);

#[expect(non_upper_case_globals, reason = "named like the two choices they are")]
impl System {
    /// Each quantity in its own unit: millimetres, newtons, bar.
    pub const Metric: Self = Self([0; Sort::ALL.len()]);

    /// Inches, pounds, psi where the trade uses them.
    pub const Imperial: Self = {
        let mut ways = [0; Sort::ALL.len()];
        let mut at = 0;
        while at < ways.len() {
            ways[at] = Sort::ALL[at].ways().len() as u8 - 1;
            at += 1;
        }
        Self(ways)
    };
}

impl System {
    /// Which of a sort's ways is chosen.
    #[must_use]
    pub fn way(self, sort: Sort) -> usize {
        usize::from(self.0[sort as usize])
    }

    /// The same but for one sort; a way that is not there changes nothing.
    #[must_use]
    pub fn with(mut self, sort: Sort, way: usize) -> Self {
        if way < sort.ways().len() {
            self.0[sort as usize] = way as u8;
        }
        self
    }

    /// The unit to show instead of `unit`, which is one of `dimension`'s. Of conductors it is the area's also where gauges
    /// are chosen: gauges are no even scale. Single values are told by their gauge all the same, see [`shows_gauges`](Self::shows_gauges).
    #[must_use]
    #[inline(never)] // asked for in many places: small counts
    pub fn unit(self, dimension: &'static Dimension, unit: &'static Unit) -> &'static Unit {
        let Some(sort) = unit.sort.filter(|sort| *sort != Sort::Conductor) else { return unit };
        let way = self.way(sort);
        let instead = match sort.ways().get(way) {
            Some(way) if !way.instead.is_empty() => way.instead.iter().find(|(from, _)| *from == unit.symbol).map(|(_, to)| *to),
            Some(_) if way > 0 => Some(unit.imperial),
            _ => None,
        };
        // A bore's unit stays itself where nothing else is chosen.
        instead.filter(|symbol| *symbol != unit.symbol).and_then(|symbol| dimension.find(symbol)).unwrap_or(unit)
    }

    /// Whether values declared in this unit are told by American gauge.
    #[must_use]
    pub fn shows_gauges(self, unit: &Unit) -> bool {
        unit.sort == Some(Sort::Conductor) && self.way(Sort::Conductor) > 0
    }

    /// In letters, figures, hyphens and points: `metric.bore-in.force-lbf`. What is not named is as in the base, the nearer
    /// of the two, so that a sort of some later day goes with most of the others.
    #[must_use]
    pub fn write(self) -> String {
        let written = |base: Self, name: &str| {
            let mut words = vec![name.to_owned()];
            for sort in Sort::ALL {
                if self.way(sort) != base.way(sort) {
                    words.push(format!("{}-{}", sort.key(), sort.ways()[self.way(sort)].key));
                }
            }
            words
        };
        let (metric, imperial) = (written(Self::Metric, METRIC), written(Self::Imperial, IMPERIAL));
        if metric.len() <= imperial.len() { metric } else { imperial }.join(".")
    }

    /// Reads that; gives also the words that say nothing known. None where the base is none.
    ///
    /// ```
    /// use trialfit_core::show::{Sort, System};
    /// let (mixed, unknown) = System::read("metric.force-lbf.bore-ell").unwrap();
    /// assert_eq!(mixed, System::Metric.with(Sort::Force, 2));
    /// assert_eq!(unknown, ["bore-ell"]);
    /// assert_eq!(mixed.write(), "metric.force-lbf");
    /// ```
    #[must_use]
    pub fn read(text: &str) -> Option<(Self, Vec<&str>)> {
        let mut words = text.split('.');
        let mut system = match words.next() {
            Some(METRIC) => Self::Metric,
            Some(IMPERIAL) => Self::Imperial,
            _ => return None,
        };
        let mut unknown = Vec::new();
        for word in words {
            let found = word.split_once('-').and_then(|(sort, way)| {
                let sort = Sort::ALL.into_iter().find(|known| known.key() == sort)?;
                Some((sort, sort.ways().iter().position(|known| known.key == way)?))
            });
            match found {
                Some((sort, way)) => system = system.with(sort, way),
                None => unknown.push(word),
            }
        }
        Some((system, unknown))
    }
}

const METRIC: &str = "metric";
const IMPERIAL: &str = "imperial";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit::{BAR, BORE, KPA, MM, N, N_PER_MM};
    use crate::quantity::{Force, Length, Pressure, Stiffness};

    #[test]
    fn every_way_has_its_unit() {
        for sort in Sort::ALL {
            for way in sort.ways() {
                for (from, to) in way.instead {
                    let of_sort = |unit: &&Unit| unit.sort == Some(sort);
                    let both = |dimension: &&Dimension| {
                        dimension.units.iter().filter(of_sort).filter(|it| [*from, *to].contains(&it.symbol)).count() == 2
                    };
                    assert!(crate::quantity::DIMENSIONS.iter().any(both), "{from} {to}");
                }
            }
        }
    }

    #[test]
    fn each_sort_goes_its_own_way() {
        let mixed = System::Metric.with(Sort::Bore, 1).with(Sort::Force, 1).with(Sort::Pressure, 1);
        let symbol = |dimension, unit| mixed.unit(dimension, unit).symbol;
        assert_eq!([symbol(Length::DIMENSION, MM), symbol(Length::DIMENSION, BORE)], ["mm", "in"]);
        assert_eq!([symbol(Force::DIMENSION, N), symbol(Stiffness::DIMENSION, N_PER_MM)], ["kgf", "kgf/mm"]);
        assert_eq!([symbol(Pressure::DIMENSION, BAR), symbol(Pressure::DIMENSION, KPA)], ["kPa", "kPa"]);
        assert_eq!(System::Metric.unit(Length::DIMENSION, BORE), BORE);
    }

    // Every one of the systems there are.
    #[test]
    fn what_is_written_reads_back() {
        let mut all = vec![System::Metric];
        for sort in Sort::ALL {
            all = all.iter().flat_map(|system| (0..sort.ways().len()).map(|way| system.with(sort, way))).collect();
        }
        assert_eq!(all.len(), 2_usize.pow(6) * 3_usize.pow(4));
        for system in all {
            assert_eq!(System::read(&system.write()), Some((system, Vec::new())));
        }
        assert_eq!([System::Metric.write(), System::Imperial.write()], ["metric", "imperial"]);
    }

    #[test]
    fn a_base_that_is_none_is_no_system() {
        assert_eq!(System::read("furlongs.force-lbf"), None);
        assert_eq!(System::Metric.with(Sort::Bore, 9), System::Metric);
    }
}
