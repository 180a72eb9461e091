/** Refusals of the people area: code → data. Every code has its sentence in core/shared/text. */
export type PeopleErrors = {
  readonly NAME_MISSING: { readonly what: 'customer' | 'person' | 'shop' | 'vehicle' | 'tax' | 'package' };
  readonly NAME_TOO_LONG: { readonly most: number; readonly has: number };
  readonly EMAIL_UNREADABLE: { readonly email: string };
  readonly YEAR_UNLIKELY: { readonly year: number; readonly latest: number };
  /** Details can't be removed while a job is open, a document is a draft or not settled, or money is held. */
  readonly CUSTOMER_BUSY: {
    readonly name: string;
    readonly jobs: number;
    readonly drafts: number;
    readonly unpaid: number;
    readonly held: 'yes' | 'no';
    readonly heldMinor: number;
  };
  readonly CUSTOMER_ERASED: Readonly<Record<string, never>>;
};
