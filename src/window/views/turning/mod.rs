//! Nuts: the row of nuts, made safe, the turn card.

pub mod chosen_nut;
pub mod lettering;
pub mod make_safe;
pub mod nut_at_hand;
pub mod nut_buttons;
pub mod nut_care;
pub mod nut_drawn;
pub mod nut_input;
pub mod nuts;
pub mod recount;
pub mod safety;
pub mod thread;
pub mod turn_card;
pub mod wrench;
