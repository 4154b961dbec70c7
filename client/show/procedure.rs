//! A procedure, step by step.

use clampbook_api::v1::PlanTighteningResponse;

use super::{
    cite::sources,
    text::{paragraph, paragraphs, strong, wrap},
};

/// The title, then one paragraph a step.
pub(crate) fn answer(plan: &PlanTighteningResponse) -> String {
    let mut shown = format!(
        "{}   {}\n{}\n\n",
        strong(&plan.title),
        plan.procedure,
        plan.used_when
    );
    for step in &plan.steps {
        let first = format!("{:>2}  ", step.number);
        shown.push_str(&wrap(&first, 4, &step.line));
    }
    shown.push('\n');
    shown.push_str(&paragraphs("Mind", &plan.cautions));
    shown.push_str(&sources(&plan.sources));
    if plan.sources.is_empty() {
        shown.push_str(&paragraph("Sources", "Common practice."));
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};
    use clampbook_api::v1::Step;
    use insta::assert_snapshot;

    #[test]
    fn a_step_says_what_how_much_in_which_order_and_with_what() {
        let plan = PlanTighteningResponse {
            procedure: "staged".to_owned(),
            title: "70 % then full".to_owned(),
            used_when: "Several positions.".to_owned(),
            steps: vec![
                Step {
                    number: 1,
                    line: "TORQUE TO 70 % 63 N·m (46.5 lbf·ft), cold: First pass. Order 1 3 2 4. With torque wrench."
                        .to_owned(),
                    ..Default::default()
                },
                Step {
                    number: 2,
                    line: "MEASURE, after distance: End play. With dial indicator; limits: maker's limits.".to_owned(),
                    ..Default::default()
                },
            ],
            ..Default::default()
        };
        let shown = finish(&answer(&plan), Look::default());
        assert_snapshot!(shown, @r"
        70 % then full   staged
        Several positions.

         1  TORQUE TO 70 % 63 N·m (46.5 lbf·ft), cold: First pass. Order 1 3 2 4. With
            torque wrench.
         2  MEASURE, after distance: End play. With dial indicator; limits: maker's
            limits.

        Sources      Common practice.
        ");
    }
}
