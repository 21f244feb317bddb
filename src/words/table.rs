//! The macros behind every table of texts.

/// Makes one method of [`Language`](super::Language) per text.
///
/// ```text
/// texts! {
///     /// Where it stands.
///     spread { en: "spread", es: "diferencia" }
///     read_of(read, all) { en: "{read} of {all} read", es: "{read} de {all} leídos" }
/// }
/// ```
///
/// A text without holes is a `&'static str`, one with holes a `String`. Both
/// languages get every hole by name, and `format!` refuses one that is not
/// used.
macro_rules! texts {
    ($($(#[$doc:meta])* $name:ident $(($($hole:ident),+))? { en: $en:literal, es: $es:literal $(,)? })*) => {
        impl $crate::words::Language {
            $(texts!(@one $(#[$doc])* $name $(($($hole),+))? $en, $es);)*
        }
    };
    (@one $(#[$doc:meta])* $name:ident $en:literal, $es:literal) => {
        $(#[$doc])*
        #[doc = concat!("```text\n", $en, "\n```")]
        pub fn $name(self) -> &'static str {
            match self {
                Self::English => $en,
                Self::Spanish => $es,
            }
        }
    };
    (@one $(#[$doc:meta])* $name:ident ($($hole:ident),+) $en:literal, $es:literal) => {
        $(#[$doc])*
        #[doc = concat!("```text\n", $en, "\n```")]
        pub fn $name(self, $($hole: impl std::fmt::Display),+) -> String {
            match self {
                Self::English => format!($en, $($hole = $hole),+),
                Self::Spanish => format!($es, $($hole = $hole),+),
            }
        }
    };
}

/// Makes one method of [`Language`](super::Language) that names what an enum
/// can be.
///
/// ```text
/// names! {
///     /// The side of the press.
///     pub side(Side) {
///         Left { en: "left", es: "izquierda" }
///         Right { en: "right", es: "derecha" }
///     }
/// }
/// ```
macro_rules! names {
    ($($(#[$doc:meta])* $vis:vis $name:ident($of:ident) {
        $($($variant:ident)|+ { en: $en:literal, es: $es:literal $(,)? })+
    })+) => {
        impl $crate::words::Language {
            $($(#[$doc])*
            $vis fn $name(self, of: $of) -> &'static str {
                match (self, of) {
                    $(
                        (Self::English, $($of::$variant)|+) => $en,
                        (Self::Spanish, $($of::$variant)|+) => $es,
                    )+
                }
            })+
        }
    };
}
