import { z } from 'zod';
import { taxParts } from '../bill.ts';
import type { ItemId } from '../ids.ts';
import { MOST_LETTERS } from '../letters.ts';
import { PRICED_LEVELS } from '../listPrices.ts';
import { problem } from '../problems.ts';
import { ROLES } from '../roles.ts';
import { TAX_CATEGORIES, TAX_CODES } from '../tax.ts';
import { PROTECTIONS, WISHES } from '../views/estimate.ts';
import { BODY_STYLES, PANELS, SKILLS, STAGE_KINDS } from '../vocabulary.ts';
import { hoursInput, newBay, technicianInput } from './baysInputs.ts';
import { localDayInput, tokenInput } from './inputs.ts';

/** What the shop is called and how it writes things. */
export const shopDetails = z.strictObject({
  name: z.string().max(400),
  address: z.string().max(MOST_LETTERS.address),
  phone: z.string().max(MOST_LETTERS.phone),
  email: z.string().max(MOST_LETTERS.email),
  taxNumber: z.string().max(MOST_LETTERS.taxNumber),
  country: z.string().regex(/^[A-Z]{2}$/, problem('noCountry')),
  zone: z.string().trim().min(1).max(60),
  currency: z.string().length(3),
  locale: z.string().trim().min(2).max(20),
  filmUnit: z.enum(['um', 'mil']),
  volumeUnit: z.enum(['ml', 'floz']),
  lengthUnit: z.enum(['m', 'ft']),
  paper: z.enum(['A4', 'Letter']),
});

/** One rule and its new value. */
export const settingChange = z.strictObject({
  setting: z.string().min(3).max(80),
  value: z.union([z.number(), z.string().max(80), z.boolean(), z.array(z.int()).max(20)]),
});

/** A price of a person hour: for all work, for a skill, or for one kind of stage. */
export const rateInput = z.strictObject({
  for: z
    .discriminatedUnion('applies', [
      z.strictObject({ applies: z.literal('all') }),
      z.strictObject({ applies: z.literal('skill'), skill: z.enum(SKILLS) }),
      z.strictObject({ applies: z.literal('stage'), stage: z.enum(STAGE_KINDS) }),
    ])
    .default({ applies: 'all' }),
  hourMinor: z.int().min(0).max(100_000_000),
  fromDay: localDayInput.optional(),
});

export const taxInput = z.strictObject({
  code: z.enum(TAX_CODES).default('standard'),
  name: z.string().max(60),
  category: z.enum(TAX_CATEGORIES),
  ratePpm: z.int().min(0).max(1_000_000),
  reason: z.string().max(300).default(''),
  /** Several taxes on one sale, such as a state's and a county's: `ratePpm` is then what they come to. */
  parts: taxParts.optional(),
  fromDay: localDayInput.optional(),
});

/** The minimum charge of a job, or a share of the price on top of it. 0 = none from that day on. */
export const chargeInput = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('minimum'),
    amountMinor: z.int().min(0).max(100_000_000),
    fromDay: localDayInput.optional(),
  }),
  z.strictObject({
    kind: z.enum(['rush', 'afterHours']),
    sharePpm: z.int().min(0).max(5_000_000),
    fromDay: localDayInput.optional(),
  }),
]);

/**
 * A package: what is done and its price; null = no longer offered from that day on. What is not said of its work stays
 * as it stands; of a new one `wish` must be said.
 */
export const packageInput = z.strictObject({
  name: z.string().trim().min(1).max(60),
  wish: z.enum(WISHES).optional(),
  interior: z.boolean().optional(),
  protection: z.enum(PROTECTIONS).optional(),
  bodies: z.array(z.enum(BODY_STYLES)).max(BODY_STYLES.length).optional(),
  priceMinor: z.int().min(1).max(100_000_000).nullable(),
  fromDay: localDayInput.optional(),
});

/** A price of the list: of a thing by its name, or of a panel at a level; null = no longer offered from that day on. */
export const listPriceInput = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('item'),
    name: z.string().trim().min(1).max(60),
    priceMinor: z.int().min(1).max(100_000_000).nullable(),
    tax: z.enum(TAX_CODES).optional(),
    /** Where one of it is taken from when it is handed over, in base units of the item; null = from no stock. */
    stock: z
      .strictObject({ itemId: z.string().min(1).max(40), amount: z.int().min(1).max(10_000_000) })
      .transform(({ itemId, amount }) => ({ itemId: itemId as ItemId, amount }))
      .nullable()
      .optional(),
    fromDay: localDayInput.optional(),
  }),
  z.strictObject({
    kind: z.literal('panel'),
    level: z.enum(PRICED_LEVELS),
    panel: z.enum(PANELS).optional(),
    priceMinor: z.int().min(1).max(100_000_000).nullable(),
    fromDay: localDayInput.optional(),
  }),
]);

export const pinInput = z.string().max(40);

/** Somebody of the shop as first written down. */
export const newPerson = z.strictObject({
  name: z.string().max(400),
  role: z.enum(ROLES),
  startedDay: localDayInput.optional(),
  pin: pinInput.optional(),
});

/** What somebody of the set-up can do and when they work; found by the name given there, since ids come later. */
export const setUpTechnician = technicianInput.omit({ personId: true }).extend({ name: z.string().max(400) });

/** Everything that setting up may say at once; only the name, place, money, and the first owner are needed. */
export const setUpInput = z.strictObject({
  shop: shopDetails.partial({ address: true, phone: true, email: true, taxNumber: true }),
  owner: z.strictObject({
    name: z.string().max(400),
    pin: pinInput.optional(),
    token: tokenInput.optional(),
  }),
  people: z.array(newPerson).max(60).default([]),
  rates: z.array(rateInput).max(60).default([]),
  taxes: z.array(taxInput).max(20).default([]),
  settings: z.array(settingChange).max(60).default([]),
  bays: z.array(newBay).max(60).default([]),
  hours: hoursInput.optional(),
  technicians: z.array(setUpTechnician).max(61).default([]),
  /** Set when a demo shop is built around this day. */
  demoDay: localDayInput.optional(),
});
