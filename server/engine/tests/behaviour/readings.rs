//! How a setting is read on a wrench: with no more digits than its marks tell.

use clampbook_engine::{quantity::Torque, wrench::Reading};

#[test]
fn a_scale_is_read_with_the_digits_of_its_marks() {
    for (graduation, wanted, text) in [
        ("5 lbf·ft", "38.4 lbf·ft", "40 lbf·ft"),
        ("1 lbf·ft", "38.4 lbf·ft", "38 lbf·ft"),
        ("0.5 lbf·ft", "38.4 lbf·ft", "38.5 lbf·ft"),
        ("0.1 lbf·ft", "38.44 lbf·ft", "38.4 lbf·ft"),
        ("1/4 lbf·ft", "38.2 lbf·ft", "38.25 lbf·ft"),
        ("0.125 lbf·ft", "38.1 lbf·ft", "38.125 lbf·ft"),
        ("0.3 lbf·ft", "38.1 lbf·ft", "38.1 lbf·ft"),
    ] {
        let torque = |said| Torque::parse(said).unwrap();
        let reading = Reading::on(&torque(graduation), torque(wanted).torque);
        assert_eq!(reading.text, text, "{graduation}");
    }
}
