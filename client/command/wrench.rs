//! `wrench`.

use clampbook_api::v1::{
    Adapter, Calibration, SetWrenchRequest, UsedLockNut, Wrench,
    torque_service_client::TorqueServiceClient,
};

use crate::{
    args::{Word, WrenchArgs},
    call::Server,
    error::Failure,
    out::Out,
    show,
};

pub(super) async fn run(args: WrenchArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let unit = args.unit.unwrap_or_default();
    let lengths = args.wrench_length.zip(args.adapter_length);
    let kind = args.lock_nut_kind.unwrap_or_default().into();
    let request = SetWrenchRequest {
        torque: args.torque,
        run_on_torque: args.run_on.unwrap_or_default(),
        run_on_excluded: args.run_on_excluded,
        adapter: lengths.map(|(wrench_length, adapter_length)| Adapter {
            wrench_length,
            adapter_length,
            angle_degrees: args.angle.unwrap_or_default(),
        }),
        used_lock_nut: args
            .used_lock_nut
            .map(|thread| UsedLockNut { thread, kind }),
        wrenches: args
            .wrenches
            .iter()
            .map(|said| wrench(said))
            .collect::<Result<_, _>>()?,
    };
    let answer = server
        .torque(TorqueServiceClient::set_wrench, request)
        .await?;
    out.answer(&answer, |answer| show::wrench::answer(answer, unit))
}

/// `label,full scale,graduation` and, if it is known, how its calibration stands. What the torques mean the server knows.
fn wrench(said: &str) -> Result<Wrench, Failure> {
    let parts: Vec<&str> = said.split(',').map(str::trim).collect();
    let (label, scale, step, state) = match parts[..] {
        [label, scale, step] => (label, scale, step, None),
        [label, scale, step, state] => (label, scale, step, Some(state)),
        _ => {
            return Err(Failure::usage(format!(
                "--wrench \"{said}\": say it like \"long,150 lbf-ft,1 lbf-ft,in-date\""
            )));
        }
    };
    let calibration = match state {
        None => Calibration::Unspecified,
        Some(word) => Calibration::from_word(word).ok_or_else(|| {
            Failure::usage(format!(
                "--wrench \"{said}\": \"{word}\" is none of in-date, overdue, known-bad"
            ))
        })?,
    };
    Ok(Wrench {
        label: label.to_owned(),
        least_torque: String::new(),
        greatest_torque: scale.to_owned(),
        graduation: step.to_owned(),
        stated_deviation: None,
        calibration: calibration.into(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wrench_is_said_in_one_breath() {
        let said = wrench("long, 150 lbf-ft, 1 lbf-ft, overdue").expect("a wrench");
        assert_eq!(said.label, "long");
        assert_eq!(said.greatest_torque, "150 lbf-ft");
        assert_eq!(said.graduation, "1 lbf-ft");
        assert_eq!(said.calibration(), Calibration::Overdue);
        let unsaid = wrench("long,150 lbf-ft,1 lbf-ft").expect("a wrench");
        assert_eq!(unsaid.calibration(), Calibration::Unspecified);
        for wrong in ["", "long", "long,1 N-m", "a,b,c,d,e", "a,b,c,fine"] {
            assert!(wrench(wrong).is_err(), "{wrong}");
        }
    }
}
