-- Who kept a vehicle and since when; customers, vehicles and people are ended or erased, never deleted.

CREATE TABLE vehicle_keeper (             -- one row per change of hands; owned by core/vehicles
  vehicle_id  TEXT NOT NULL REFERENCES vehicle (id),
  customer_id TEXT NOT NULL REFERENCES customer (id),
  from_ms     INTEGER NOT NULL,           -- when the shop learned of it
  PRIMARY KEY (vehicle_id, from_ms)
) STRICT;
CREATE INDEX vehicle_keeper_customer ON vehicle_keeper (customer_id);
CREATE INDEX vehicle_vin ON vehicle (vin) WHERE vin <> '';

CREATE TRIGGER customer_no_delete BEFORE DELETE ON customer BEGIN SELECT RAISE(ABORT, 'customers are kept'); END;
CREATE TRIGGER vehicle_no_delete BEFORE DELETE ON vehicle BEGIN SELECT RAISE(ABORT, 'vehicles are kept'); END;
CREATE TRIGGER person_no_delete BEFORE DELETE ON person BEGIN SELECT RAISE(ABORT, 'people are kept'); END;
CREATE TRIGGER vehicle_keeper_no_update BEFORE UPDATE ON vehicle_keeper BEGIN SELECT RAISE(ABORT, 'keepers are append-only'); END;
CREATE TRIGGER vehicle_keeper_no_delete BEFORE DELETE ON vehicle_keeper BEGIN SELECT RAISE(ABORT, 'keepers are append-only'); END;
