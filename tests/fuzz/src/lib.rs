//! Damage made at random, on purpose, to everything that reads what strangers write.
//!
//! A [`targets::Target`] is a function of bytes: it panics, or says what does not hold, or does neither. The bytes come
//! from [`corpus`], changed by [`mutate`], in the order that a seed gives ([`worker`]); [`supervisor`] starts the workers
//! and counts. The same functions can be called by any other fuzzer.

pub mod corpus;
pub mod dictionary;
pub mod guard;
pub mod minimize;
pub mod mutate;
pub mod pool;
pub mod rng;
pub mod supervisor;
pub mod targets;
pub mod worker;
