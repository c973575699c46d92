//! Four small bakes whose least ends are known from outside: each `optimum` in `tests/reference/plans` is proven by CP-SAT of
//! OR-tools 9.15, which `tests/oracle/plan_speed.py` asks anew in every run, and `critical_path` is the longest way through
//! the links alone.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use checks::plan::answer_to;
use serde_json::{Value, json};

fn files() -> Vec<(String, Value)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference/plans");
    let files = fs::read_dir(folder).expect("the folder is there");
    let read = |file: std::io::Result<fs::DirEntry>| {
        let text = fs::read_to_string(file.expect("it is listed").path()).expect("it is text");
        let file = serde_json::from_str(&text).expect("it is JSON");
        (text, file)
    };
    files.map(read).collect()
}

fn list<'a>(of: &'a Value, name: &str) -> &'a [Value] {
    of[name].as_array().expect("a list")
}

fn number(of: &Value, name: &str) -> i64 {
    of[name].as_i64().expect("a whole number")
}

fn text<'a>(of: &'a Value, name: &str) -> &'a str {
    of[name].as_str().expect("a text")
}

/// Whether starts keep every link and capacity of a file, minute by minute.
fn holds(file: &Value, starts: &BTreeMap<&str, i64>) -> bool {
    let tasks = list(file, "tasks");
    let minutes = |id: &str| {
        let mut tasks = tasks.iter();
        number(
            tasks
                .find(|task| text(task, "id") == id)
                .expect("it is there"),
            "minutes",
        )
    };
    let keeps = |link: &Value| {
        let (from, to) = (text(link, "from"), text(link, "to"));
        let lag = starts[to] - starts[from] - minutes(from);
        lag >= number(link, "min") && link["max"].as_i64().is_none_or(|most| lag <= most)
    };
    let resources = file["resources"].as_object().expect("capacities");
    let fits = |minute: i64| {
        resources.iter().all(|(resource, capacity)| {
            let holds = tasks.iter().filter(|task| {
                let (start, takes) = (starts[text(task, "id")], number(task, "minutes"));
                let needs = list(task, "needs")
                    .iter()
                    .any(|need| need == resource.as_str());
                needs && (start..start + takes).contains(&minute)
            });
            holds.count() as i64 <= capacity.as_i64().expect("a capacity")
        })
    };
    starts.values().all(|&start| start >= 0)
        && list(file, "links").iter().all(keeps)
        && (0..number(file, "optimum")).all(fits)
}

#[test]
fn bakes_that_were_proven_elsewhere_end_when_they_did_there() {
    let files = files();
    assert_eq!(files.len(), 4);
    for (text_of, file) in &files {
        let name = text(file, "name");
        let answer = answer_to(text_of, &mut || true).expect("it can be read");
        assert_eq!(answer["status"], "optimal", "{name}");
        assert_eq!(answer["makespan"], file["optimum"], "{name}");
        assert_eq!(answer["bound"], file["optimum"], "{name}");
        let starts = answer["starts"].as_object().expect("starts");
        let starts = starts.iter();
        let starts: BTreeMap<&str, i64> = starts
            .map(|(id, start)| (id.as_str(), start.as_i64().expect("a minute")))
            .collect();
        assert!(holds(file, &starts), "{name}: {starts:?}");
    }
}

/// With room for everything at once the links alone decide.
#[test]
fn with_hands_for_everything_the_longest_way_is_the_end() {
    for (_, mut file) in files() {
        let many = file["tasks"].as_array().expect("a list").len();
        let resources = file["resources"].as_object_mut().expect("capacities");
        for capacity in resources.values_mut() {
            *capacity = json!(many);
        }
        let answer = answer_to(&file.to_string(), &mut || true).expect("it can be read");
        assert_eq!(
            answer["makespan"], file["critical_path"],
            "{}",
            file["name"]
        );
    }
}
