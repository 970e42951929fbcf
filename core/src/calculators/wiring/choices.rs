//! The choices of the wiring's rows and inputs.

use crate::choices;
use crate::data::conductors::{INSULATIONS, Insulation};
use crate::spec::Verdict;

choices! {
    /// What a circuit is for: decides how much voltage it may lose.
    Kind {
        ControlFeed "control-feed" "control unit, feed"
        ControlEarth "control-earth" "control unit, earth"
        SensorEarth "sensor-earth" "sensor earth"
        PumpOrCoil "pump-coil" "pump, ignition or relay coil"
        Injectors "injectors" "injectors"
        Motor "motor" "fan, wiper or horn"
        Headlamp "headlamp" "headlamp"
        Heater "heater" "oxygen sensor's heater"
        Lamp "lamp" "lamp, signal or instrument"
    }
}

choices! {
    /// How the current flows while the circuit is on.
    Pattern {
        Steady "steady" "steady: once on, it stays on for minutes"
        Pulsed "pulsed" "pulsed: on and off faster than a wire warms"
        Ramp "ramp" "ramp: rises to its peak and is cut off, as in ignition coils"
    }
}

choices! {
    /// How the current comes back.
    Return {
        OwnWire "own-wire" "its own wire"
        LowSide "low-side" "its own wire, switched to earth by the control unit"
        Body "body" "the body"
        Engine "engine" "the engine and its strap"
        NotCounted "not-counted" "judged in a row of its own"
    }
}

choices! {
    /// What opens when a wire is shorted.
    Protection {
        Fuse "fuse" "a fuse at the source"
        EarthSide "earth-side" "none needed: earth side, or fed through electronics that limit it"
        Nothing "nothing" "nothing"
    }
}

choices! {
    /// What closes the circuit.
    Switching {
        Direct "direct" "no relay"
        Relay "relay" "a relay's contact"
    }
}

choices! {
    /// How the load is given.
    LoadBy {
        Current "current" "its current"
        Power "power" "its power"
    }
}

choices! {
    /// Insulation by its letter.
    Letter {
        A "a" "A, 85 °C"
        B "b" "B, 100 °C"
        C "c" "C, 125 °C"
        D "d" "D, 150 °C"
        E "e" "E, 175 °C"
        F "f" "F, 200 °C"
        G "g" "G, 225 °C"
        H "h" "H, 250 °C"
    }
}

impl Letter {
    /// What it stands.
    #[must_use]
    pub fn stands(self) -> &'static Insulation {
        &INSULATIONS[self as usize]
    }
}

choices! {
    /// A branch of the loom, by its letter.
    Branch { A "a" "A" B "b" "B" C "c" "C" D "d" "D" E "e" "E" F "f" "F" G "g" "G" H "h" "H" I "i" "I" J "j" "J" K "k" "K" L "l" "L" }
}

/// Number of branch letters.
pub(super) const BRANCHES_AT_MOST: usize = 12;

choices! {
    /// Where a branch leaves from.
    Parent {
        Source "source" "the fuse box"
        A "a" "A" B "b" "B" C "c" "C" D "d" "D" E "e" "E" F "f" "F" G "g" "G" H "h" "H" I "i" "I" J "j" "J" K "k" "K" L "l" "L"
    }
}

choices! {
    /// What surrounds a branch.
    Surroundings {
        Cabin "cabin" "cabin"
        Bay "bay" "engine bay"
        Exhaust "exhaust" "near the exhaust"
    }
}

choices! {
    /// Which sizes are chosen from.
    SizeRange {
        Stocked "stocked" "sizes most shops keep"
        Every "every" "every size of the standard"
    }
}

choices! {
    /// Where the battery's negative cable goes.
    EarthTo {
        Body "body" "the body; a strap takes it on to the engine"
        Engine "engine" "the engine; a strap takes it on to the body"
    }
}

choices! {
    /// The engine's strap.
    Strap {
        Fitted "fitted" "fitted"
        Missing "missing" "missing"
    }
}

choices! {
    /// The state of bolted joints.
    Joints {
        Clean "clean" "bright and tight"
        Corroded "corroded" "corroded or painted: ten times the resistance"
    }
}

choices! {
    /// Where the sensors' earth wire ends.
    SensorEarth {
        ControlUnit "control-unit" "at the control unit"
        Engine "engine" "on the engine, the control unit's on the body"
    }
}

choices! {
    /// A diode in the charge lamp's feed.
    Diode {
        Fitted "fitted" "fitted"
        None "none" "none"
    }
}

choices! {
    /// Colour letters of IEC 60757 (from memory).
    Colour {
        Bk "bk" "BK black" Bn "bn" "BN brown" Rd "rd" "RD red" Og "og" "OG orange" Ye "ye" "YE yellow" Gn "gn" "GN green" Bu "bu" "BU blue"
        Vt "vt" "VT violet" Gy "gy" "GY grey" Wh "wh" "WH white" Pk "pk" "PK pink" Tq "tq" "TQ turquoise"
    }
}

choices! {
    /// Colour of the stripe, by the letters of IEC 60757 (from memory).
    Stripe {
        None "none" "no stripe"
        Bk "bk" "BK black" Bn "bn" "BN brown" Rd "rd" "RD red" Og "og" "OG orange" Ye "ye" "YE yellow" Gn "gn" "GN green" Bu "bu" "BU blue"
        Vt "vt" "VT violet" Gy "gy" "GY grey" Wh "wh" "WH white" Pk "pk" "PK pink" Tq "tq" "TQ turquoise"
    }
}

choices! {
    /// What makes a smaller wire impossible.
    Governs {
        Drop "drop" "voltage lost"
        Heat "heat" "the wire's temperature"
        Fuse "fuse" "the fuse"
        Strength "strength" "the thinnest wire you use"
    }
}

choices! {
    /// How a fuse and its wire get on.
    Guard {
        Guards "guards" "guards the wire"
        NotNeeded "not-needed" "none needed here"
        LongOverload "long-overload" "opens on a short; a long overload of 1.1 to 1.35 times its rating can cook the wire"
        SlowAtEnd "slow-at-end" "a short at the far end is weak: it may take minutes to open"
        TooSmall "too-small" "will not carry the load for long"
        TooLarge "too-large" "the wire burns before it opens"
        MayNeverOpen "may-never-open" "a short at the far end is too weak to open it"
        Unfused "unfused" "no fuse"
    }
}

impl Guard {
    pub(super) const VERDICTS: &'static [Verdict] = &[
        Verdict::Within,
        Verdict::Within,
        Verdict::Near,
        Verdict::Near,
        Verdict::Beyond,
        Verdict::Beyond,
        Verdict::Beyond,
        Verdict::Beyond,
    ];

    pub(super) fn verdict(self) -> Verdict {
        Self::VERDICTS[self as usize]
    }
}

choices! {
    /// A circuit's size in force, and why it fails if it does.
    Check {
        Passes "passes" "passes"
        Close "close" "passes, only just"
        TooHot "too-hot" "the wire gets too hot"
        FuseFails "fuse" "the fuse does not guard it, or does not hold"
        LosesTooMuch "loses-too-much" "loses too much voltage"
        NoSize "no-size" "no size passes"
    }
}

impl Check {
    pub(super) const VERDICTS: &'static [Verdict] =
        &[Verdict::Within, Verdict::Near, Verdict::Beyond, Verdict::Beyond, Verdict::Beyond, Verdict::Beyond];
}

choices! {
    /// American wire gauge of the trade's even numbers.
    Gauge {
        G26 "26" "26" G24 "24" "24" G22 "22" "22" G20 "20" "20" G18 "18" "18" G16 "16" "16" G14 "14" "14" G12 "12" "12" G10 "10" "10"
        G8 "8" "8" G6 "6" "6" G4 "4" "4" G2 "2" "2" G1 "1" "1" G1Of0 "1-0" "1/0" G2Of0 "2-0" "2/0" G3Of0 "3-0" "3/0" G4Of0 "4-0" "4/0"
    }
}
