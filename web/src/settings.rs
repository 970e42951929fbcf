//! What the page remembers of its reader: units and colours.

use trialfit_core::show::System;

/// Colours of the page.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Theme {
    /// As the device has it.
    #[default]
    Device,
    Light,
    Dark,
}

impl Theme {
    pub const ALL: [Self; 3] = [Self::Device, Self::Light, Self::Dark];

    /// As kept, and as the style sheet knows it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Device => "device",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}

/// All of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Settings {
    pub system: System,
    pub theme: Theme,
}

impl Settings {
    /// As kept on the device.
    pub fn write(self) -> String {
        format!("{} {}", self.system.write(), self.theme.key())
    }

    /// From what is kept; what is not understood stays usual.
    pub fn read(text: &str) -> Self {
        let has = |word: &str| text.split_whitespace().any(|other| other == word);
        Self {
            system: text.split_whitespace().find_map(System::read).map(|(system, _)| system).unwrap_or_default(),
            theme: Theme::ALL.into_iter().find(|theme| has(theme.key())).unwrap_or_default(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use trialfit_core::show::Sort;

    #[test]
    fn settings_come_back_and_rubbish_is_usual() {
        for system in [System::Metric, System::Imperial, System::Metric.with(Sort::Force, 1).with(Sort::Conductor, 1)] {
            for theme in Theme::ALL {
                let settings = Settings { system, theme };
                assert_eq!(Settings::read(&settings.write()), settings);
            }
        }
        assert_eq!(Settings::read("\u{0} plaid"), Settings::default());
        // As kept before each sort had units of its own, and by some later day that has more.
        assert_eq!(Settings::read("imperial dark"), Settings { system: System::Imperial, theme: Theme::Dark });
        assert_eq!(Settings::read("metric light"), Settings { system: System::Metric, theme: Theme::Light });
        assert_eq!(Settings::read("imperial.hair-mm dark"), Settings { system: System::Imperial, theme: Theme::Dark });
    }
}
