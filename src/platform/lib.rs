//! The browser: storage, clock, sound, screen, files, tabs, updates.
//!
//! The only crate that knows there is a browser. One capability a file.
//!
//! - No JavaScript value leaves it: in go plain values and closures, out come
//!   plain values, and what went wrong as an enum.
//! - A capability that this browser lacks is a value, never a panic.
//! - What has to be undone is undone by the `Drop` of the value that stands for it.

pub mod calendar;
pub mod clock;
pub mod device;
mod drift;
mod events;
pub mod files;
pub mod focus;
pub mod ids;
pub mod interchange;
mod js;
pub mod late;
mod later;
pub mod leader;
pub mod notify;
pub mod offline;
pub mod page;
pub mod persist;
pub mod print;
pub mod rows;
pub mod sound;
pub mod store;
pub mod tabs;
pub mod vibration;
pub mod wake_lock;
