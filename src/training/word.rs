//! Enums whose values have words: JSON, the command line and the screens call each value the same.

/// An enum that has a word for each of its values.
pub trait Words: Copy + Sized + 'static {
    /// Every value, in the order in which they are listed.
    const ALL: &'static [Self];

    /// The word.
    fn word(self) -> &'static str;

    /// The value that a word stands for.
    fn of_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|value| value.word() == word)
    }
}

/// Declares an enum together with the words of its values: `Ahead = "ahead"`.
macro_rules! words {
    ($(#[$meta:meta])* $vis:vis enum $name:ident {
        $($(#[$doc:meta])* $variant:ident = $word:literal),+ $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        $vis enum $name {
            $($(#[$doc])* $variant),+
        }

        impl $name {
            /// Every value, in the order in which they are listed.
            $vis const ALL: [$name; [$($name::$variant),+].len()] = [$($name::$variant),+];

            /// The word.
            $vis const fn word(self) -> &'static str {
                match self {
                    $($name::$variant => $word),+
                }
            }
        }

        impl $crate::training::Words for $name {
            const ALL: &'static [Self] = &$name::ALL;

            fn word(self) -> &'static str {
                $name::word(self)
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str($name::word(*self))
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str($name::word(*self))
            }
        }

        impl schemars::JsonSchema for $name {
            fn inline_schema() -> bool {
                true
            }

            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "enum": [$($word),+] })
            }
        }
    };
}

pub(crate) use words;
