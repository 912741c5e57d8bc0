//! Several lifters in one journal.

use super::gym::{Gym, Watch};
use super::model::Model;
use super::page::Journal;
use super::random::Random;
use super::shape::{Shape, coached};
use chrono::NaiveDate;

/// A journal of several lifters.
pub struct Team {
    /// Paths below the root, and texts.
    pub files: Vec<(String, String)>,
    pub today: NaiveDate,
    pub members: Vec<Member>,
}

/// One of them.
pub struct Member {
    /// As the settings have it, else as the folder is called.
    pub name: &'static str,
    /// Below the root.
    pub folder: &'static str,
    /// What is this lifter's own.
    pub journal: Journal,
}

/// Folders, and the names of those who have one in their settings.
const MEMBERS: [(&str, Option<&str>); 4] =
    [("ilse/", Some("Ilse")), ("bram/", None), ("juniors/chi/", Some("Chi the younger")), ("juniors/oda/", None)];

/// Two to four lifters of one gym, each with a journal and thresholds of the lifter's own, all seen on one day.
#[allow(dead_code, reason = "the benches do not use it")]
pub fn team(seed: u64) -> Team {
    let mut random = Random::new(seed);
    let gym = Gym::shared(&mut random, true);
    let mut files = gym.files.clone();
    let mut models = Vec::new();
    for (at, (folder, name)) in MEMBERS.into_iter().take(random.within(2..=4) as usize).enumerate() {
        let mut gym = Gym { folder, files: Vec::new(), ..gym.clone() };
        let mut own = name.map(|name| format!("name: {name}\n")).unwrap_or_default();
        if random.chance(60) {
            let (watch, line) = Watch::own(&mut random);
            gym.watch = watch;
            own += &line;
        }
        if random.chance(30) {
            gym.high_reps = random.within(6..=12);
            own += &format!("high reps: {}\n", gym.high_reps);
        }
        gym.files.push((format!("{folder}lifter.yaml"), own));
        let shape = Shape { plain: random.chance(40), ..coached() };
        let model = Model::in_gym(shape, gym, Random::new(seed.wrapping_mul(31).wrapping_add(at as u64 + 1)));
        let last = folder.trim_end_matches('/').rsplit('/').next().unwrap_or(folder);
        models.push((name.unwrap_or(last), folder, model));
    }
    let seen_by = random.below(models.len());
    let today = models[seen_by].2.some_day();
    let members = models.into_iter().map(|(name, folder, model)| {
        let journal = model.written_on(today);
        Member { name, folder, journal }
    });
    let members: Vec<Member> = members.collect();
    files.extend(members.iter().flat_map(|member| member.journal.files.iter().cloned()));
    Team { files, today, members }
}
