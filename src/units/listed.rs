//! Enums that know all their variants, and the names files keep them under.

/// Makes an enum with `ALL`, its variants in order; where each has a name, also
/// with `key` and `from_key`. A new variant stands in one place.
///
/// ```text
/// listed! {
///     /// A side.
///     #[derive(Debug, Clone, Copy, PartialEq, Eq)]
///     pub enum Side {
///         /// The operator's left.
///         Left = "left",
///     }
/// }
/// ```
macro_rules! listed {
    ($(#[$meta:meta])* pub enum $name:ident { $($(#[$doc:meta])* $variant:ident,)+ }) => {
        $(#[$meta])*
        pub enum $name { $($(#[$doc])* $variant,)+ }

        impl $name {
            /// All of them, in order.
            pub const ALL: [Self; [$(Self::$variant),+].len()] = [$(Self::$variant),+];
        }
    };
    ($(#[$meta:meta])* pub enum $name:ident { $($(#[$doc:meta])* $variant:ident = $key:literal,)+ }) => {
        $crate::units::listed! {
            $(#[$meta])*
            pub enum $name { $($(#[$doc])* $variant,)+ }
        }

        impl $name {
            /// The name under which files and text commands know it.
            pub const fn key(self) -> &'static str {
                match self {
                    $(Self::$variant => $key,)+
                }
            }

            /// The one of that name.
            pub fn from_key(key: &str) -> Option<Self> {
                Self::ALL.into_iter().find(|one| one.key() == key)
            }
        }
    };
}
pub(crate) use listed;
