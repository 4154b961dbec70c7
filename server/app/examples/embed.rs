//! The whole service inside another program: opens a journal, logs a removal, asks a torque, prints the sheet.

use clampbook_app::book::entry::Moment;
use clampbook_app::book::fact::{AssemblyAdded, JobOpened, JointAdded, Layout, Removed, Target};
use clampbook_app::book::ids::{AssemblyId, JobId, JointId};
use clampbook_app::book::words::{Criticality, HoleKind, Outcome, TorqueUnit};
use clampbook_app::engine::Ask;
use clampbook_app::{App, Caller, Change, LONGEST, Operation, SheetForm};
use std::error::Error;
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};

#[tokio::main]
async fn main() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir()?;
    let app = App::open(&folder.path().join("shop.clampbook"), Arc::new(now))?;
    let ida = || Caller::local("Ida", "bench");
    let job = JobId::new("tractor").ok_or("no identifier")?;

    let said = Change::new(job.clone(), tractor());
    let opening = app.call(ida(), Operation::CreateJob, LONGEST, async |call| {
        call.open_job(said).await
    });
    opening.await?;
    let said = Change::new(job.clone(), hub()?);
    let adding = app.call(ida(), Operation::CreateAssembly, LONGEST, async |call| {
        call.add_assembly(said).await
    });
    adding.await?;
    let said = Change::new(job.clone(), plate()?);
    let adding = app.call(ida(), Operation::CreateJoint, LONGEST, async |call| {
        call.add_joint(said).await
    });
    let joint = adding.await?.joint.fact.joint.clone();
    let said = Change::new(job.clone(), Removed::new(joint, 1, Outcome::Seized));
    let logging = app.call(ida(), Operation::LogRemoval, LONGEST, async |call| {
        call.log_removal(said).await
    });
    let logged = logging.await?;
    let (entry, flags) = (logged.removal.entry, logged.flags.len());
    println!("entry {entry}, flags {flags}");

    let torque = app.calculate(ida(), Operation::ComputeTorque, |call| {
        call.compute_torque(&ask(), Vec::new(), |_, answer| answer.torque.get())
    })?;
    println!("{THREAD} {GRADE}, oiled: {torque:.1} N·m");
    let printing = app.call(ida(), Operation::RenderSheet, LONGEST, async |call| {
        call.render_sheet(&job, None, None, SheetForm::Text).await
    });
    println!("{}", printing.await?);
    app.stop().await;
    Ok(())
}

const THREAD: &str = "7/16-20 UNF";
const GRADE: &str = "SAE J429 5";

fn ask() -> Ask<'static> {
    Ask {
        thread: THREAD,
        grade: GRADE,
        lubrication: "oiled",
        ..Ask::default()
    }
}

fn tractor() -> JobOpened {
    JobOpened {
        display_name: "Orchard tractor".into(),
        machine: String::new(),
        torque_unit: Some(TorqueUnit::NewtonMetre),
    }
}

fn hub() -> Result<AssemblyAdded, &'static str> {
    Ok(AssemblyAdded {
        assembly: AssemblyId::new("hub").ok_or("no identifier")?,
        display_name: "Hub".into(),
        counterpart: None,
    })
}

fn plate() -> Result<JointAdded, &'static str> {
    Ok(JointAdded {
        joint: JointId::new("plate").ok_or("no identifier")?,
        assembly: AssemblyId::new("hub").ok_or("no identifier")?,
        display_name: "Plate to knuckle".into(),
        layout: Layout::Ring,
        labels: vec![String::new(); 4],
        criticality: Criticality::B,
        hole_kind: HoleKind::TappedThrough,
        purpose: "clamping".into(),
        target: Some(Target {
            thread: THREAD.into(),
            grade: GRADE.into(),
            lubrication: "oiled".into(),
            proof_share: None,
            clamp_load_n: None,
            nut_factor: None,
            nut_grade: None,
            baked: false,
        }),
        lock: String::new(),
        preparation: String::new(),
        computed_torque_approver: "Ida".into(),
        build: None,
        specification: None,
    })
}

/// An embedder brings the clock.
#[expect(
    clippy::disallowed_methods,
    reason = "a program of its own reads the time itself"
)]
fn now() -> Moment {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    Moment(i64::try_from(since.unwrap_or_default().as_micros()).unwrap_or(i64::MAX))
}
