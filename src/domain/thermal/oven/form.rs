//! In what form pieces bake: round, long, as a ring, in a loaf tin, or side by side.
//!
//! Every form keeps its proportions whatever a piece weighs, and heat goes inwards along one
//! direction ([`Axis`](crate::thermal::transient::Axis)) of length `L = κ V^(1/3)`, V being the piece's risen volume:
//!
//! | form | taken as | κ |
//! |---|---|---|
//! | round | a ball | 0.620 |
//! | long | a stick eight radii long, its ends left out | 0.341 |
//! | ring | a stick that closes round a hole of two thicknesses | 0.257 |
//! | loaf tin | a box as 1 : 2.3 : 0.8, heated on every face, as the ball with the same slowest mode, `(π/L)² = Σ (π/2L_i)²` | 0.492 |
//! | touching | the middle one of a layer, half as wide again as deep, heated from above and below | 0.382 |
//!
//! Each against the product of the series along all its own directions: the box takes 1 % longer, the
//! stick 0.3 % less (`tests/native/heating/forms.rs`). One body serves the time in the oven, the course of
//! its middle, the last rise and the cooling. What rises in a tin is taken as one, whatever form its formula
//! has: in logs from before forms were known that is round.
//!
//! Checked against measured breads (Zhang and Datta, 2006, as open data beside a research code): from
//! a small bread of 69 g at 190 °C, 8.4 min to 90 °C, a tin loaf of 599 g at 240 °C follows within a
//! tenth, 17.5 min for 18.
//!
//! The proportions are judgement. The tin is one of 100 by 230 mm for 900 g. Fifteen pieces of
//! 52 g in a tin of 330 by 230 mm (common practice, no source) are 22 mm deep when risen and twice
//! that when baked, since they can only grow upwards; a layer of one and a half to one lies between.
//! Left out: the tin itself. Bright metal that shines heat away, or thick glass or pottery that takes
//! time to warm, makes it a tenth longer, and dark metal a tenth shorter (common practice, no
//! source); tins that touch, and lids, are slower than said; pieces at the edge are done sooner than
//! those in the middle. [`FORM_SPREAD`] is to hold all that.

use crate::thermal::vessel::body::{HOT_IN_AIR, STILL_AIR, from_metres, sphere, volume_m3};
use crate::thermal::vessel::{Body, Form, Material, Vessel};
use crate::units::{Grams, WattsPerSquareMetreKelvin};

/// ASSUMPTION: one time in ten a piece in another form than its formula's takes longer, or less long,
/// than said by this factor: a depth that is a tenth off makes a fifth, and the tin another tenth.
pub(super) const FORM_SPREAD: f64 = 1.2;

/// The form in which each piece bakes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BakeForm {
    /// A bun or a round loaf that stands free.
    Round,
    /// Side by side with others, in a tin or on the tray, so that they touch when they have risen.
    Touching,
    /// A stick, a braid or a long loaf that stands free.
    Long,
    /// A ring or a wreath.
    Ring,
    /// A loaf in a tin of its own.
    Tin,
}

impl BakeForm {
    /// All of them, in their own order.
    pub const ALL: [Self; 5] = [
        Self::Round,
        Self::Touching,
        Self::Long,
        Self::Ring,
        Self::Tin,
    ];

    /// A piece of that form as a body that conducts. ASSUMPTION: the proportions, see above.
    #[must_use]
    pub fn body(self, piece: Grams, material: Material, film: WattsPerSquareMetreKelvin) -> Body {
        let length = |kappa: f64| from_metres(kappa * volume_m3(piece, material).cbrt());
        let form = match self {
            Self::Round => sphere(piece, material),
            // V = π r² · 8r
            Self::Long => Form::Stick {
                radius: length(0.341_392),
            },
            // V = π r² · π 6r
            Self::Ring => Form::Stick {
                radius: length(0.256_555),
            },
            Self::Tin => Form::Sphere {
                radius: length(0.491_971),
            },
            // V = (1.5 d)² d, and half of d
            Self::Touching => Form::Layer {
                depth: length(0.381_571),
            },
        };
        Body {
            form,
            material,
            film,
        }
    }

    /// A shaped piece as it rises for the last time.
    ///
    /// ASSUMPTION: the tray, or the tin, is as good as air, and its filling as warm as its dough.
    #[must_use]
    pub fn rising(self, piece: Grams, dough: Material) -> Vessel {
        Vessel::of(self.body(piece, dough, STILL_AIR))
    }

    /// A piece out of the oven, on a rack; pieces that touch are left together.
    ///
    /// A tin loaf of 900 g is cool after 92 min where the box itself takes 98.
    #[must_use]
    pub fn cooling(self, piece: Grams) -> Vessel {
        Vessel::of(self.body(piece, Material::CRUMB, HOT_IN_AIR))
    }
}
