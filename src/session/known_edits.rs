//! Changes about the handle and about what is given for a press.

use crate::units::{Sign, TypedLength, Unit};

use super::Session;
use super::edit::EditProblem;

impl Session {
    /// Records a move of the handle; an empty text takes it back.
    pub(super) fn set_handle(
        &mut self,
        pass: usize,
        text: &str,
        bare: Unit,
    ) -> Result<(), EditProblem> {
        let handle = match text.trim() {
            "" => None,
            text => {
                Some(TypedLength::parse(text, bare, Sign::Either).map_err(EditProblem::Handle)?)
            }
        };
        self.pass_mut(pass)?.handle = handle;
        Ok(())
    }

    /// What the handle moved before a pass that goes is moved before the next.
    pub(super) fn delete_pass(&mut self, pass: usize) -> Result<(), EditProblem> {
        let gone = self.pass_mut(pass)?.handle.clone();
        self.passes.remove(pass);
        if let (Some(gone), Some(next)) = (gone, self.passes.get_mut(pass)) {
            next.handle = Some(match &next.handle {
                Some(own) => TypedLength::from_length(own.length().plus(gone.length()), own.unit()),
                None => gone,
            });
        }
        Ok(())
    }

    /// Refuses to change arms or stations that a response is given for.
    pub(super) fn no_response_given(&self) -> Result<(), EditProblem> {
        match self.known_response {
            Some(_) => Err(EditProblem::ResponseIsGiven),
            None => Ok(()),
        }
    }
}
