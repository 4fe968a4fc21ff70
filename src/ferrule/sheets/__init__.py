"""What the crew carries: schedules, drawings, labels and packs, each a function of an answered job."""
