//! Pages of `docs/` against the tables that they describe.

mod units;
