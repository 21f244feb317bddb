//! What the passes teach and which turns to make.
