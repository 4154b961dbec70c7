//! What can be asked of Clampbook, one word per method of the contract.

use clampbook_book::command::{Command, ShopCommand};
use clampbook_journal::Work;

macro_rules! operations {
    ($($name:ident $kind:ident;)+) => {
        /// An operation; named as its method in the contract.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Operation { $(#[doc = stringify!($name)] $name),+ }

        impl Operation {
            /// Every operation.
            pub const ALL: &[Self] = &[$(Self::$name),+];

            /// Its name, as the method's in the contract.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$name => stringify!($name)),+ }
            }

            /// Whether it writes to the journal.
            #[must_use]
            pub const fn writes(self) -> bool {
                match self { $(Self::$name => operations!(@ $kind)),+ }
            }
        }
    };
    (@ reads) => { false };
    (@ writes) => { true };
}

operations! {
    ListThreads reads;
    GetThread reads;
    ListGrades reads;
    ListNutGrades reads;
    ListLubrications reads;
    IdentifyThread reads;
    IdentifyGrade reads;
    IdentifySpanner reads;
    ListLookAlikes reads;
    ListPublishedTorques reads;
    ListAcrossFlats reads;
    ListParentMetals reads;
    ListPublishedTargets reads;
    CreateLubrication writes;
    ReviseLubrication writes;
    WithdrawLubrication writes;
    CreateSpecification writes;
    ReviseSpecification writes;
    WithdrawSpecification writes;
    ImportSpecifications writes;
    ExportSpecifications reads;
    GetSpecification reads;
    ListSpecifications reads;
    ListSpecificationUses reads;
    GetEffectiveValue reads;
    ComputeTorque reads;
    ComputeTorques reads;
    RenderChart reads;
    RestateTorque reads;
    SetWrench reads;
    PlanTightening reads;
    ComputeLongFormTorque reads;
    CheckJoint reads;
    FitLength reads;
    ComputeStretch reads;
    AlignCastellatedNut reads;
    CreateJob writes;
    GetJob reads;
    ListJobs reads;
    CreateAssembly writes;
    CreateJoint writes;
    GetJoint reads;
    ListJoints reads;
    LogMatchMarks writes;
    LogRemoval writes;
    LogAlikeRemovals writes;
    ImportRemovals writes;
    LogDecision writes;
    LogRefit writes;
    LogTightening writes;
    LogNotRefitted writes;
    LogFinding writes;
    AnswerCounterpart writes;
    CheckReplacement reads;
    ListPartsToOrder reads;
    ListWaits reads;
    LogPartWanted writes;
    LogPartArrival writes;
    AddPhoto writes;
    GetPhoto reads;
    CorrectEntry writes;
    ListFlags reads;
    ListRules reads;
    GetRule reads;
    ListEntries reads;
    SearchJobs reads;
    ListPositionHistory reads;
    WatchEntries reads;
    GetSheet reads;
    RenderSheet reads;
    CreatePerson writes;
    RevisePerson writes;
    WithdrawPerson writes;
    ListPeople reads;
}

impl Operation {
    /// The operation that gives the store this work.
    pub(crate) const fn of(work: &Work) -> Self {
        match work {
            Work::Job(_, command) => match command {
                Command::OpenJob(_) => Self::CreateJob,
                Command::AddAssembly(_) => Self::CreateAssembly,
                Command::AddJoint(_) => Self::CreateJoint,
                Command::LogMatchMarks(_) => Self::LogMatchMarks,
                Command::LogRemoval(_) => Self::LogRemoval,
                Command::LogAlikeRemovals(_) => Self::LogAlikeRemovals,
                Command::ImportRemovals(_) => Self::ImportRemovals,
                Command::LogDecision { .. } => Self::LogDecision,
                Command::LogRefit(_) => Self::LogRefit,
                Command::LogTightening(_) => Self::LogTightening,
                Command::LogNotRefitted(_) => Self::LogNotRefitted,
                Command::LogFinding(_) => Self::LogFinding,
                Command::AnswerCounterpart(_) => Self::AnswerCounterpart,
                Command::LogPartWanted(_) => Self::LogPartWanted,
                Command::LogPartArrival(_) => Self::LogPartArrival,
                Command::AddPhoto(_) => Self::AddPhoto,
                Command::Correct(_) => Self::CorrectEntry,
            },
            Work::Shop(command) => match command {
                ShopCommand::CreateLubrication(_) => Self::CreateLubrication,
                ShopCommand::ReviseLubrication { .. } => Self::ReviseLubrication,
                ShopCommand::WithdrawLubrication { .. } => Self::WithdrawLubrication,
                ShopCommand::CreateSpecification(_) => Self::CreateSpecification,
                ShopCommand::ReviseSpecification { .. } => Self::ReviseSpecification,
                ShopCommand::WithdrawSpecification { .. } => Self::WithdrawSpecification,
                ShopCommand::ImportSpecifications(_) => Self::ImportSpecifications,
                ShopCommand::CreatePerson(_) => Self::CreatePerson,
                ShopCommand::RevisePerson { .. } => Self::RevisePerson,
                ShopCommand::WithdrawPerson { .. } => Self::WithdrawPerson,
            },
        }
    }
}
