//! The page: forms, drawings and storage over the core. Everything on it is rendered from the calculators' declarations.
//!
//! What can be worked out without a browser is plain functions, tested natively; components only show it.

pub mod answer;
pub mod asked;
pub mod banners;
pub mod bench;
pub mod beside;
pub mod browser;
pub mod card;
pub mod choice;
pub mod cite;
pub mod copy;
pub mod dialog;
pub mod differs;
pub mod dom;
pub mod drawing;
pub mod fetched;
pub mod field;
pub mod figure;
pub mod gauge;
pub mod history;
pub mod keep;
pub mod listing;
pub mod measure;
pub mod menu;
pub mod overview;
pub mod page;
pub mod parts;
mod picture;
pub mod pictures;
pub mod plot;
pub mod published;
pub mod results;
pub mod route;
pub mod save;
pub mod send;
pub mod settings;
pub mod sheet;
pub mod signal;
pub mod stops;
pub mod table;
pub mod tools;
pub mod twin;
pub mod visit;
pub mod words;
pub mod working;
