//! A seeded sample, the brute force that windows are held against.
//!
//! SplitMix64 (Steele, Lea & Flood, *Fast Splittable Pseudorandom Number Generators*, OOPSLA 2014) and the
//! inverse of the normal distribution by Acklam's rational approximation (2003, from memory; the test below holds
//! it to tabulated quantiles). The model itself never draws a number.

use domain::estimate::Estimate;
use domain::units::Quantity;

/// The ninetieth percentile of the normal distribution with mean 0 and variance 1.
const NINETIETH: f64 = 1.281_551_565_545;

/// Numbers that are the same in every run.
pub(super) struct Draws(u64);

impl Draws {
    pub(super) fn seeded(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Normally distributed, such that one in ten is below -1 and one in ten above 1.
    pub(super) fn tenths(&mut self) -> f64 {
        // Half a step off, so that it is never 0 or 1.
        let uniform = ((self.next() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64;
        inverse_normal(uniform) / NINETIETH
    }

    /// An uncertain value whose distances from the likely one are normal, on either side with its own width.
    pub(super) fn plain<T: Quantity>(&mut self, value: &Estimate<T>) -> f64 {
        let tenths = self.tenths();
        let [low, likely, high] = [value.low(), value.likely(), value.high()].map(T::get);
        likely
            + tenths
                * if tenths < 0.0 {
                    likely - low
                } else {
                    high - likely
                }
    }

    /// The same for its logarithm, for what is known to a share of itself.
    pub(super) fn log<T: Quantity>(&mut self, value: &Estimate<T>) -> f64 {
        let tenths = self.tenths();
        let [low, likely, high] = [value.low(), value.likely(), value.high()].map(T::get);
        likely
            * (tenths
                * if tenths < 0.0 {
                    likely / low
                } else {
                    high / likely
                }
                .ln())
            .exp()
    }

    /// A factor round 1, one time in ten larger and one in ten smaller than `factor` says.
    pub(super) fn factor(&mut self, factor: f64) -> f64 {
        factor.powf(self.tenths())
    }
}

/// Acklam's approximation, off by at most 1.2e-9 of the value.
fn inverse_normal(p: f64) -> f64 {
    const A: [f64; 6] = [
        -3.969_683_028_665_376e1,
        2.209_460_984_245_205e2,
        -2.759_285_104_469_687e2,
        1.383_577_518_672_69e2,
        -3.066_479_806_614_716e1,
        2.506_628_277_459_239,
    ];
    const B: [f64; 6] = [
        -5.447_609_879_822_406e1,
        1.615_858_368_580_409e2,
        -1.556_989_798_598_866e2,
        6.680_131_188_771_972e1,
        -1.328_068_155_288_572e1,
        1.0,
    ];
    const C: [f64; 6] = [
        -7.784_894_002_430_293e-3,
        -3.223_964_580_411_365e-1,
        -2.400_758_277_161_838,
        -2.549_732_539_343_734,
        4.374_664_141_464_968,
        2.938_163_982_698_783,
    ];
    const D: [f64; 5] = [
        7.784_695_709_041_462e-3,
        3.224_671_290_700_398e-1,
        2.445_134_137_142_996,
        3.754_408_661_907_416,
        1.0,
    ];
    let polynomial =
        |coefficients: &[f64], x: f64| coefficients.iter().fold(0.0, |sum, c| sum * x + c);
    let tail = |p: f64| {
        let q = (-2.0 * p.ln()).sqrt();
        polynomial(&C, q) / polynomial(&D, q)
    };
    if p < 0.024_25 {
        tail(p)
    } else if p > 1.0 - 0.024_25 {
        -tail(1.0 - p)
    } else {
        let q = p - 0.5;
        q * polynomial(&A, q * q) / polynomial(&B, q * q)
    }
}

/// Where the three values of a window, and its middle half, lie in a sample, in per cent.
#[derive(Debug, Clone, Copy)]
pub(super) struct Coverage {
    pub(super) low: f64,
    pub(super) quarter: f64,
    pub(super) likely: f64,
    pub(super) three_quarters: f64,
    pub(super) high: f64,
}

impl Coverage {
    pub(super) fn of(window: &Estimate<f64>, sample: &[f64]) -> Self {
        let below = |value: f64| {
            let below = sample.iter().filter(|&&drawn| drawn < value).count();
            100.0 * below as f64 / sample.len() as f64
        };
        let (quarter, three_quarters) = window.middle_half();
        Self {
            low: below(window.low()),
            quarter: below(quarter),
            likely: below(window.likely()),
            three_quarters: below(three_quarters),
            high: below(window.high()),
        }
    }

    fn shares(&self) -> [(f64, f64); 5] {
        [
            (self.low, 10.0),
            (self.quarter, 25.0),
            (self.likely, 50.0),
            (self.three_quarters, 75.0),
            (self.high, 90.0),
        ]
    }

    /// How far it is off at worst, at the ends and further in, in percentage points.
    pub(super) fn off(&self) -> (f64, f64) {
        let [low, quarter, likely, three_quarters, high] =
            self.shares().map(|(got, wanted)| (got - wanted).abs());
        (low.max(high), quarter.max(likely).max(three_quarters))
    }
}

/// How far windows may be off their sample, in percentage points.
pub(super) struct Allowed {
    /// At the tenth and the ninetieth percentile.
    pub(super) ends: f64,
    /// At the likely value and the quartiles.
    pub(super) inside: f64,
}

/// Fails with every case that is off by more than is allowed, and prints all, the worst last.
pub(super) fn hold(what: &str, mut cases: Vec<(String, Coverage)>, allowed: &Allowed) {
    assert!(cases.len() >= 4, "{what}: too few cases");
    let worse = |coverage: &Coverage| {
        let (ends, inside) = coverage.off();
        (ends / allowed.ends).max(inside / allowed.inside)
    };
    cases.sort_by(|one, other| worse(&one.1).total_cmp(&worse(&other.1)));
    let mut wrong = Vec::new();
    for (case, coverage) in cases {
        let shares = coverage.shares().map(|(got, _)| format!("{got:.1}"));
        let line = format!("{what}, {case}: {} %", shares.join(" "));
        println!("{line}");
        if worse(&coverage) > 1.0 {
            wrong.push(line);
        }
    }
    let Allowed { ends, inside } = allowed;
    assert!(
        wrong.is_empty(),
        "10 25 50 75 90 % are wanted, within {ends} at the ends and {inside} inside:\n{}",
        wrong.join("\n")
    );
}

#[test]
fn the_sample_is_normal() {
    // Quantiles of the normal distribution: Abramowitz & Stegun, Table 26.5.
    for (p, wanted) in [
        (0.5, 0.0),
        (0.75, 0.674_490),
        (0.9, 1.281_552),
        (0.01, -2.326_348),
        (0.999, 3.090_232),
    ] {
        checks::assert_close("quantile", inverse_normal(p), wanted, 1e-6);
    }
    let mut draws = Draws::seeded(1);
    let mut sample: Vec<f64> = (0..20_000).map(|_| draws.tenths()).collect();
    sample.sort_by(f64::total_cmp);
    // Three standard errors of a share of a tenth among so many are 0.6 %, or 0.025 of a tenth's distance.
    checks::assert_close("tenth", sample[2_000], -1.0, 0.03);
    checks::assert_close("middle", sample[10_000], 0.0, 0.03);
    checks::assert_close("ninetieth", sample[18_000], 1.0, 0.03);
}
