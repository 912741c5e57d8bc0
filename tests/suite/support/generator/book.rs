//! The lifts of the model: names from the lift book, from the settings, and of the lifter's own.

/// How a lift is loaded and counted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Style {
    Barbell,
    Dumbbells,
    OneSide,
    Bodyweight,
    Hold,
    Rollout,
    Carry,
    Stack,
    Band,
    Odd,
}

/// A lift of the trade: its spellings, the shown one first, its family, and its usual kilograms.
pub(super) struct Lift(pub(super) &'static str, pub(super) &'static str, pub(super) Style, pub(super) i64);

impl Lift {
    pub(super) fn spellings(&self) -> Vec<&'static str> {
        self.0.split('|').collect()
    }

    pub(super) fn shown(&self) -> &'static str {
        self.0.split('|').next().unwrap_or("")
    }
}

/// Names from the lift book, then two that only the settings know, then names of the lifter's own.
pub(super) const LIFTS: [Lift; 24] = [
    Lift("Front squat|front squats|FRONT-SQUAT|front_squat|barbell front squat", "squat", Style::Barbell, 100),
    Lift("Back squat|Squat|squats|barbell back squat", "squat", Style::Barbell, 140),
    Lift("Deadlift|deadlifts|conventional deadlift|DL", "hinge", Style::Barbell, 160),
    Lift("Bench press|bench|Bench-Press|flat bench press", "horizontal press", Style::Barbell, 90),
    Lift("Overhead press|OHP|strict press", "vertical press", Style::Barbell, 60),
    Lift("Pull-up|pull ups|Pullup|weighted pull-up", "vertical pull", Style::Bodyweight, 15),
    Lift("Romanian deadlift|RDL|barbell RDL|romanian deadlifts", "hinge", Style::Barbell, 110),
    Lift("Bulgarian split squat|RFESS|BSS", "single leg", Style::OneSide, 24),
    Lift("Barbell row|bent-over row|BB row", "horizontal pull", Style::Barbell, 80),
    Lift("Dip|dips|parallel bar dip", "horizontal press", Style::Bodyweight, 20),
    Lift("Dumbbell row|DB row|one-arm dumbbell row", "horizontal pull", Style::OneSide, 32),
    Lift("Dumbbell bench press|DB bench", "horizontal press", Style::Dumbbells, 28),
    Lift("Plank|planks|front plank", "trunk", Style::Hold, 10),
    Lift("Ab wheel rollout|ab wheel|rollouts", "trunk", Style::Rollout, 0),
    Lift("Farmer's carry|farmer’s walk|farmers walk", "carry", Style::Carry, 60),
    Lift("Sled push|sled-push", "carry", Style::Carry, 90),
    Lift("Lat pulldown|pulldowns|cable pulldown", "vertical pull", Style::Stack, 9),
    Lift("Leg extension|leg extensions", "other", Style::Stack, 6),
    Lift("Face pull|face pulls", "horizontal pull", Style::Band, 0),
    Lift("Biceps curl|curls|bicep curl", "arms", Style::Odd, 30),
    Lift("Ring row|ring rows|strap row", "horizontal pull", Style::Bodyweight, 5),
    Lift("Slope march|slope-march|bank march", "carry", Style::Carry, 20),
    Lift("Tyre heave|tyre heaves|TYRE-HEAVE", "other", Style::Odd, 80),
    Lift("Anvil shrug walk|anvil shrug-walk", "other", Style::Carry, 40),
];

/// Where in [`LIFTS`] those begin that nobody knows.
pub(super) const OWN_LIFTS: usize = 22;
