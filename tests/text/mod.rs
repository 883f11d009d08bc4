//! The printed text: reading its files.

mod readers;
