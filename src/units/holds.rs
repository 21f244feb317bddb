//! Problems that hold other problems.

/// Lets `?` turn problems into the one that holds each as a variant.
///
/// ```text
/// holds! { SessionProblem { Press(PressProblem), Length(LengthOutOfBounds) } }
/// ```
macro_rules! holds {
    ($whole:ident { $($variant:ident($part:ty)),+ $(,)? }) => {
        $(impl From<$part> for $whole {
            fn from(problem: $part) -> Self {
                Self::$variant(problem)
            }
        })+
    };
}
pub(crate) use holds;
