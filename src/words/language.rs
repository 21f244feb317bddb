//! The languages the program speaks.

/// A language for every sentence of the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish, plain shop Spanish of the Americas.
    Spanish,
}

impl Language {
    /// All languages.
    pub const ALL: [Self; 2] = [Self::English, Self::Spanish];

    /// The language's own name for itself.
    pub fn own_name(self) -> &'static str {
        match self {
            Self::English => "English",
            Self::Spanish => "Español",
        }
    }

    /// The two-letter code of ISO 639-1.
    pub fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    /// The language that the system's settings ask for: the first of `LC_ALL`,
    /// `LC_MESSAGES` and `LANG` that is set, as POSIX has it.
    pub fn of_system(variable: impl Fn(&str) -> Option<String>) -> Self {
        ["LC_ALL", "LC_MESSAGES", "LANG"]
            .into_iter()
            .filter_map(variable)
            .find(|value| !value.is_empty())
            .map_or_else(Self::default, |locale| Self::from_locale(&locale))
    }

    /// The language a locale such as `es_MX.UTF-8` asks for; English for
    /// every language we do not speak.
    pub fn from_locale(locale: &str) -> Self {
        Self::ALL
            .into_iter()
            .find(|language| locale.starts_with(language.code()))
            .unwrap_or_default()
    }
}
