import type { InvoiceId } from '../ids.ts';
import type { LocalDay, Minor, Ppm } from '../units.ts';

/** A partial invoice that stood when a later document was issued, as its credit notes had left it. */
export type BilledBefore = {
  readonly id: InvoiceId;
  readonly number: number;
  readonly day: LocalDay;
  readonly toPayMinor: Minor;
};

/** What a partial invoice says of the job: which of its partial invoices it is (from 1), with tax what all comes to. */
export type ProgressView = {
  readonly nth: number;
  readonly wholeMinor: Minor;
  /** Of all comes after this and what was billed before. */
  readonly restMinor: Minor;
};

/** A credit note that takes what was billed too much off a partial invoice, in the amounts that it shows. */
export type ProposedCredit = {
  readonly invoiceId: InvoiceId;
  readonly number: number;
  readonly lines: readonly { readonly line: number; readonly amountMinor: Minor }[];
};
export type BilledAboveView = { readonly aboveMinor: Minor; readonly credits: readonly ProposedCredit[] };

/** A line of the agreed bill, or a discount or charge on the whole, as a partial invoice could bill it. */
export type PartialLineView = {
  /** Its place in the agreed bill; what stands on the whole comes behind the lines. */
  readonly line: number;
  readonly text: string;
  readonly wholeMinor: Minor;
  /** On partial invoices so far, less their credit notes. */
  readonly billedMinor: Minor;
  /** Its share that is done by the stages finished. */
  readonly donePpm: Ppm;
  /** Billed of it in all when this partial invoice is issued; what stands on the whole follows the lines. */
  readonly sharePpm: Ppm;
  readonly nowMinor: Minor;
  /** False where its share follows from the lines. */
  readonly asked: boolean;
};

/** What could be billed now of an agreed job, and what would remain. Sums with tax. */
export type PartialPlan = {
  readonly jobNumber: number;
  readonly customer: string;
  readonly vehicle: string;
  readonly payer: string;
  readonly taxIncluded: boolean;
  readonly lines: readonly PartialLineView[];
  readonly wholeMinor: Minor;
  readonly before: readonly BilledBefore[];
  readonly nowMinor: Minor;
  readonly restMinor: Minor;
  /** Some of it is above what is finished: issuing it asks. */
  readonly aheadOfWork: boolean;
  /** A partial invoice of this job that is not issued yet. */
  readonly draftId: InvoiceId | null;
};
