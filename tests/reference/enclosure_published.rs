//! Values that were seen in a page (marked verified in the notes on the box and its shop), one by one.
//!
//! Rows are copied from the page that each test names, and read through the function that the program reads them by. The
//! table of check values beside (`check_values`) holds the rest.

mod edges;
mod glazing;
mod joining;
mod loads;
mod metals;
mod timber;
mod tube;
