//! The project file: text to model and back.
//!
//! Lives here: reading with places and faults, writing as splices of bytes, storing without loss, drafts. Must not
//! live here: what any entry means for a build, undo, screens. The file's text is the state; nothing here keeps a
//! second copy of it.

pub mod adopt;
pub mod document;
pub mod draft;
pub mod edit;
pub mod fault;
pub mod merge;
mod outline;
pub mod place;
pub mod read;
pub mod records;
pub mod store;

pub use edit::{EditError, Splice};
pub use fault::{Fault, Problem};
pub use read::Project;
