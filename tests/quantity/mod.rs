//! Reading and printing quantities: tables of how people write them, and properties.

mod faults;
mod printing;
mod properties;
mod reading;
