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
        format!("{} {}", system_key(self.system), self.theme.key())
    }

    /// From what is kept; what is not understood stays usual.
    pub fn read(text: &str) -> Self {
        let has = |word: &str| text.split_whitespace().any(|other| other == word);
        Self {
            system: if has(system_key(System::Imperial)) { System::Imperial } else { System::Metric },
            theme: Theme::ALL.into_iter().find(|theme| has(theme.key())).unwrap_or_default(),
        }
    }
}

/// As kept, and as the field is called.
pub const fn system_key(system: System) -> &'static str {
    match system {
        System::Metric => "metric",
        System::Imperial => "imperial",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_come_back_and_rubbish_is_usual() {
        for system in [System::Metric, System::Imperial] {
            for theme in Theme::ALL {
                let settings = Settings { system, theme };
                assert_eq!(Settings::read(&settings.write()), settings);
            }
        }
        assert_eq!(Settings::read("\u{0} plaid"), Settings::default());
    }
}
