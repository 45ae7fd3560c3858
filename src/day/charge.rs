//! What stands under the cap and in the tank: pressure, what goes out and what comes back.
