//! The bonnet line: published answers, and the calculator as a whole.

mod references;
mod whole;
