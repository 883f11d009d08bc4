//! What was worked out about a cutting list, kept by the list: a first plan, what is decided about it, and a plain plan
//! that is shorter.

use std::sync::{Arc, OnceLock};

use super::cutting::{Cloth, Cut};
use super::cutting_list::taken;
use super::kept::Kept;
use super::proof::Proof;
use super::taken::Taken;

/// A cutting list on a fabric, each part worked out when it is first asked for.
#[derive(Debug)]
pub struct KnownList {
    cuts: Arc<[Cut]>,
    cloth: Cloth,
    first: OnceLock<Option<Taken>>,
    proof: OnceLock<Option<Arc<Proof>>>,
    plain: OnceLock<Option<Taken>>,
    shorter_plain: OnceLock<Option<Taken>>,
}

static KEPT: Kept<(Arc<[Cut]>, Cloth), KnownList> = Kept::new();

/// What is known of a cutting list on a fabric; what was found for the same list before is found again at once.
pub fn known_list(cuts: &[Cut], cloth: Cloth) -> Arc<KnownList> {
    KEPT.answer((cuts.into(), cloth), cuts.len(), |(cuts, cloth)| KnownList {
        cuts: Arc::clone(cuts),
        cloth: *cloth,
        first: OnceLock::new(),
        proof: OnceLock::new(),
        plain: OnceLock::new(),
        shorter_plain: OnceLock::new(),
    })
}

impl KnownList {
    /// A first plan; `None` where a piece fits no way round, or nothing says how many.
    pub fn first(&self) -> Option<&Taken> {
        self.first.get_or_init(|| taken(&self.cuts, self.cloth)).as_ref()
    }

    /// What is decided about the first plan, where something is left to decide.
    pub fn proof(&self) -> Option<&Arc<Proof>> {
        let proof = || Some(Arc::new(Proof::new(&self.cuts, self.cloth, self.first()?)?));
        self.proof.get_or_init(proof).as_ref()
    }

    /// The plain plan, where it is shorter than the first.
    pub fn plain(&self) -> Option<&Taken> {
        self.plain.get_or_init(|| self.proof()?.plain(self.first()?)).as_ref()
    }

    /// A plain plan that is shorter than both, where one is found with more work.
    pub fn shorter_plain(&self) -> Option<&Taken> {
        let known = || self.plain().or(self.first());
        self.shorter_plain.get_or_init(|| self.proof()?.shorter_plain(known()?)).as_ref()
    }
}
