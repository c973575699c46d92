//! What each line of a text is: a heading, ingredients, a step, or nothing to bake by.

pub(crate) mod aside;
pub(crate) mod heading;
pub(crate) mod ingredient;
pub(crate) mod makes;
pub(crate) mod table;
