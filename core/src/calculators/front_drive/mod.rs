//! Front drive: the belt, the alternator and the water pump.
