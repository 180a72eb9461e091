import type { CustomerId, JobId, PersonId, VehicleId } from '../ids.ts';
import type { PaperLanguage } from '../languages.ts';
import type { Role } from '../roles.ts';
import type { EpochMin, EpochMs, LocalDay, Minor } from '../units.ts';
import type { BodyStyle, JobState, PaintHardness, StageKind } from '../vocabulary.ts';

/**
 * What the check of a vehicle identification number says. Places count from 1, as people point at them.
 * `binding`: the first place says North America, where the check digit is required; elsewhere a maker may not use it.
 */
export type VinCheck =
  | { readonly kind: 'none' }
  | { readonly kind: 'fits' }
  | { readonly kind: 'length'; readonly has: number; readonly needs: 17 }
  | { readonly kind: 'letter'; readonly place: number; readonly is: string; readonly should: string | null }
  | {
      readonly kind: 'checkDigit';
      readonly place: 9;
      readonly is: string;
      readonly should: string;
      readonly binding: boolean;
    };

export type CustomerKind = 'person' | 'firm';

export type VehicleLine = {
  readonly id: VehicleId;
  readonly body: BodyStyle;
  readonly makeModel: string;
  readonly colour: string;
  readonly year: number | null;
  readonly plate: string;
};

/** A customer found by what somebody said or typed. */
export type CustomerHit = {
  readonly id: CustomerId;
  readonly kind: CustomerKind;
  readonly name: string;
  readonly phone: string;
  readonly email: string;
  readonly vehicles: readonly VehicleLine[];
  readonly visits: number;
  readonly lastVisitDay: LocalDay | null;
};

/** Somebody known who is nearly the one being typed: same telephone or plate, at most two letters off. */
export type AlmostMatch = {
  readonly customer: CustomerHit;
  readonly same: 'phone' | 'plate' | 'both';
  readonly letters: number;
  /** Places of the differing letters, 0-based code points, in the typed and in the known name. */
  readonly inTyped: readonly number[];
  readonly inKnown: readonly number[];
};

export type VehicleHit = VehicleLine & {
  readonly vin: string;
  readonly customerId: CustomerId;
  readonly customer: string;
};

export type CustomerView = {
  readonly id: CustomerId;
  readonly kind: CustomerKind;
  readonly name: string;
  readonly phone: string;
  readonly email: string;
  readonly address: string;
  readonly country: string;
  readonly taxNumber: string;
  readonly termsDays: number;
  /** Of the papers for them, '' = the shop's. */
  readonly language: PaperLanguage | '';
  readonly note: string;
  readonly createdMs: EpochMs;
  readonly erased: boolean;
  readonly revision: number;
};

/** A visit as a line of a customer's or vehicle's page. */
export type JobLine = {
  readonly id: JobId;
  readonly number: number;
  readonly state: JobState;
  readonly purpose: string;
  readonly wish: string;
  readonly vehicleId: VehicleId;
  readonly makeModel: string;
  readonly customerId: CustomerId;
  readonly customer: string;
  readonly dropOffMin: EpochMin | null;
  readonly pickUpMin: EpochMin | null;
  readonly createdMs: EpochMs;
};

/** What a customer owes as it stands: open invoices of which the customer is the payer. */
export type OwedView = {
  readonly owedMinor: Minor;
  readonly openInvoices: number;
  readonly oldestDueDay: LocalDay | null;
  /** Held as deposits and as credit for later. */
  readonly heldMinor: Minor;
};

export type CustomerPage = {
  readonly customer: CustomerView;
  readonly vehicles: readonly VehicleLine[];
  readonly jobs: readonly JobLine[];
  readonly money: OwedView;
};

export type VehicleView = VehicleLine & {
  readonly customerId: CustomerId;
  readonly customer: string;
  readonly vin: string;
  readonly vinCheck: VinCheck;
  readonly lengthMm: number | null;
  readonly widthMm: number | null;
  readonly heightMm: number | null;
  readonly hardness: PaintHardness;
  readonly note: string;
  readonly createdMs: EpochMs;
  readonly revision: number;
};

export type KeeperLine = {
  readonly customerId: CustomerId;
  readonly name: string;
  readonly fromMs: EpochMs;
};
export type VehiclePage = {
  readonly vehicle: VehicleView;
  readonly keepers: readonly KeeperLine[];
  readonly jobs: readonly JobLine[];
};

/** Somebody who may say "it's me" at a window. */
export type HerePerson = {
  readonly id: PersonId;
  readonly name: string;
  readonly role: Role;
  readonly hasPin: boolean;
  /** Seconds until the next try; 0 = now. */
  readonly waitSec: number;
};
export type WhoIsHere = { readonly people: readonly HerePerson[]; readonly me: Me | null };
export type Me = { readonly personId: PersonId; readonly name: string; readonly role: Role };

/** The answer to a sign-in. A wrong PIN is counted, so it is an answer and not a refusal that undoes itself. */
export type SignInResult =
  | { readonly signedIn: true; readonly me: Me; readonly untilMs: EpochMs }
  | { readonly signedIn: false; readonly triesLeft: number; readonly waitSec: number };

/** The answer to a change of PIN. */
export type PinResult =
  | { readonly set: true }
  | { readonly set: false; readonly triesLeft: number; readonly waitSec: number };

/** Somebody who works or worked in the shop. */
export type StaffRow = {
  readonly id: PersonId;
  readonly name: string;
  readonly role: Role;
  readonly hasPin: boolean;
  readonly startedDay: LocalDay;
  readonly endedDay: LocalDay | null;
  readonly revision: number;
};

/** What an hour of somebody's work costs the shop from a day on; `now`: it is the one that holds today. */
export type HourCostRow = {
  readonly personId: PersonId;
  readonly fromDay: LocalDay;
  readonly hourMinor: Minor;
  readonly now: boolean;
};

/** A stage that is placed with a person from a day on. */
export type PlacedStage = {
  readonly jobId: JobId;
  readonly number: number;
  readonly stage: StageKind;
  readonly customer: string;
  readonly startMin: EpochMin;
  readonly endMin: EpochMin;
};

/** What a journal row was about, as it is called now; which of the rest is filled depends on the kind. */
export type JournalThing = {
  readonly kind:
    | 'job'
    | 'stage'
    | 'panel'
    | 'step'
    | 'draft'
    | 'invoice'
    | 'prepayment'
    | 'partial'
    | 'credit'
    | 'quote'
    | 'receipt'
    | 'voucher'
    | 'order'
    | 'delivery'
    | 'rate'
    | 'closure'
    | 'person'
    | 'named';
  /** The customer of a job or document, the supplier of an order, else its own name; '' for none. */
  readonly name: string;
  readonly number: number | null;
  /** A stage kind, a panel, a step's role, what a rate applies to, a quote's version; '' for none. */
  readonly word: string;
  /** The local day a rate or a closure begins with; '' for none. */
  readonly day: string;
};

/** Who wrote what, when; `person` null = nobody was signed in. `things` leaves out records that are gone. */
export type JournalLine = {
  readonly id: number;
  readonly atMs: EpochMs;
  readonly person: string | null;
  readonly command: string;
  readonly subjects: readonly string[];
  readonly fields: readonly string[];
  readonly things: readonly JournalThing[];
};
