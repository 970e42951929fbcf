//! The bonnet line: published answers, and the calculator as a whole.

mod linked;
mod references;
mod whole;
