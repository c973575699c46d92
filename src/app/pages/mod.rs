//! The pages, one file or folder each; most are reached by `late` alone.

pub(crate) mod alarm;
pub(crate) mod bench;
pub(crate) mod clock;
pub(crate) mod desk;
pub(crate) mod formula;
pub(crate) mod formulas;
pub(crate) mod gather;
pub(crate) mod kitchen;
pub(crate) mod late;
pub(crate) mod note;
pub(crate) mod notebook;
pub(crate) mod plan;
pub(crate) mod today;
