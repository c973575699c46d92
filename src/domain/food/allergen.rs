//! The substances or products that European law says must be named.
//!
//! Source: Regulation (EU) No 1169/2011, Annex II, fourteen entries, in its
//! order. The law also wants the cereal and the nut named; the food's own name
//! does that.

/// One entry of the law's list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Allergen {
    /// Cereals containing gluten: wheat, rye, barley, oats.
    GlutenCereals,
    /// Crustaceans.
    Crustaceans,
    /// Eggs.
    Eggs,
    /// Fish.
    Fish,
    /// Peanuts.
    Peanuts,
    /// Soybeans.
    Soybeans,
    /// Milk, with lactose.
    Milk,
    /// Nuts: almonds, hazelnuts, walnuts, cashews, pecans, Brazil nuts, pistachios, macadamias.
    Nuts,
    /// Celery.
    Celery,
    /// Mustard.
    Mustard,
    /// Sesame seeds.
    Sesame,
    /// Sulphur dioxide and sulphites above 10 mg/kg.
    Sulphites,
    /// Lupin.
    Lupin,
    /// Molluscs.
    Molluscs,
}

impl Allergen {
    /// All fourteen, in the order of the law.
    pub const ALL: [Self; 14] = [
        Self::GlutenCereals,
        Self::Crustaceans,
        Self::Eggs,
        Self::Fish,
        Self::Peanuts,
        Self::Soybeans,
        Self::Milk,
        Self::Nuts,
        Self::Celery,
        Self::Mustard,
        Self::Sesame,
        Self::Sulphites,
        Self::Lupin,
        Self::Molluscs,
    ];
}
