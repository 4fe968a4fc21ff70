"""What is left of a radio signal behind the lead of an aerial."""

from ferrule.quantity import LossDb, PowerLevelDbm, formula


@formula("level_dbm - loss_db")
def level_behind_lead(*, level_dbm: PowerLevelDbm, loss_db: LossDb) -> PowerLevelDbm:
    """Received power at the adapter, of what the aerial receives: a decibel is a ratio of powers."""
    return level_dbm - loss_db
