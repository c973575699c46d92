//! How long the model takes: `cargo bench -p checks`.
//!
//! A reforecast is described in [`checks::reforecast`], a plan redone in [`checks::replan`]; the parts that it consists of are timed as well.

#![allow(
    missing_docs,
    reason = "the macro of criterion makes a public function"
)]

use std::hint::black_box;

use checks::reforecast::{TAKEN_UP, reforecast, taken_up, with_news};
use checks::replan::{REPLANNED, replans};
use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use domain::estimate::{Basis, Estimate};
use domain::thermal::cooling::{FilmSpread, cooling_window};
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{Surroundings, Vessel};
use domain::units::{Moment, celsius, grams, minutes};
use domain::yeast::proof::{Learnt, Proof};

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

fn reforecasts(bench: &mut Criterion) {
    let mut group = bench.benchmark_group("reforecast");
    for (name, point) in std::iter::zip(TAKEN_UP, taken_up()) {
        group.bench_function(name, |bench| {
            bench.iter_batched(
                || with_news(&point),
                |bake| reforecast(&bake, point.now),
                BatchSize::SmallInput,
            );
        });
    }
    group.finish();
}

fn replanned(bench: &mut Criterion) {
    let mut group = bench.benchmark_group("a plan redone");
    for (name, replan) in std::iter::zip(REPLANNED, replans()) {
        group.bench_function(name, |bench| {
            bench.iter_batched(
                || replan.news(),
                |news| replan.redo(&news),
                BatchSize::SmallInput,
            );
        });
    }
    group.finish();
}

fn parts(bench: &mut Criterion) {
    let kitchen = Surroundings::constant(celsius(22.0));
    let proof = Proof {
        range: Estimate::new(minutes(75.0), minutes(90.0), minutes(110.0), Basis::Formula),
        reference: celsius(25.0),
        start: START,
        dough: Estimate::new(celsius(24.5), celsius(25.0), celsius(25.5), Basis::Measured),
        surroundings: kitchen.clone(),
        vessel: Vessel::dough_in_bowl(grams(680.0)),
        had: minutes(0.0),
        learnt: Learnt::default(),
    };
    bench.bench_function("a proof's window", |bench| {
        bench.iter(|| black_box(&proof).window());
    });
    let bun = BakeForm::Round.cooling(grams(130.0));
    let (hot, lukewarm) = (celsius(95.0), celsius(35.0));
    bench.bench_function("a cooling window with its modes", |bench| {
        bench.iter(|| cooling_window(black_box(&bun), hot, lukewarm, &kitchen, START));
    });
    let known = FilmSpread::of(bun);
    bench.bench_function("a cooling window", |bench| {
        bench.iter(|| black_box(&known).window(hot, lukewarm, &kitchen, START));
    });
    bench.bench_function("a temperature every minute for five hours", |bench| {
        bench.iter(|| {
            let course = known.likely().course(START, black_box(hot), &kitchen);
            let at = |minute: i32| course.core_at(START + minutes(f64::from(minute))).get();
            (0..300).map(at).sum::<f64>()
        });
    });
}

criterion_group!(benches, reforecasts, replanned, parts);
criterion_main!(benches);
