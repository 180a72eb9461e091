import { z } from 'zod';
import { document, type Entry, read, write } from '../entry.ts';
import type { InspectionId } from '../ids.ts';
import { GAUGE_TEXT_MOST } from '../letters.ts';
import { machineStep, STEP_ROLES } from '../machineStep.ts';
import {
  FELT,
  type FilmHistoryView,
  type InspectionView,
  type JobPicturesView,
  READING_PHASES,
  type StepView,
} from '../views/paint.ts';
import { DEFECTS, PANELS, SEVERITIES, SUBSTRATES } from '../vocabulary.ts';
import { idOf, jobIdInput, vehicleIdInput } from './inputs.ts';
import { allowance, onPanel } from './paintInputs.ts';

const filmUnit = z.enum(['um', 'mil']);
/** 0 = the default stood when it was seen. */
const stepRevision = z.int().min(0);
const depth = z.strictObject({ low: z.int().min(0).max(5000), high: z.int().min(0).max(5000) });
/** Marked point in the drawing's units (5 mm). */
const point = z.strictObject({ x: z.int().min(-2000).max(4000), y: z.int().min(-2000).max(2000) });

/** Commands and queries of the paint area. */
export const paintEntries = {
  'paint.startInspection': write<{ readonly inspectionId: InspectionId }>()({
    needs: 'technician',
    about: 'Opens the inspection of a job, or returns the one that is open.',
    input: z.strictObject({ jobId: jobIdInput }),
    touches: ['paint'],
  }),
  'paint.inspectionOf': read<InspectionView | null>()({
    needs: 'technician',
    about: 'Findings, film, life budget and earlier visits of a job’s vehicle, panel by panel.',
    input: z.strictObject({ jobId: jobIdInput }),
    listens: ['paint', 'estimates', 'vehicles', 'shop'],
  }),
  'paint.filmHistory': read<FilmHistoryView>()({
    needs: 'technician',
    about: 'Film of a vehicle over all its visits and what is left of each panel’s life budget.',
    input: z.strictObject({ vehicleId: vehicleIdInput }),
    listens: ['paint', 'estimates', 'vehicles', 'shop'],
  }),
  'paint.addFindings': write<{ readonly findingIds: readonly string[] }>()({
    needs: 'technician',
    about:
      'Notes a defect on one panel or several, on all of them or on none; its depth range (0.1 µm) is that of its severity unless given.',
    input: z.strictObject({
      jobId: jobIdInput,
      panels: z.array(z.enum(PANELS)).min(1).max(PANELS.length),
      defect: z.enum(DEFECTS),
      severity: z.enum(SEVERITIES),
      depth: depth.optional(),
      note: z.string().max(400).default(''),
      /** The depth is right though it goes through all paint. */
      sure: z.boolean().default(false),
    }),
    touches: ['paint'],
  }),
  'paint.removeFinding': write<null>()({
    needs: 'technician',
    about: 'Takes a finding back.',
    input: z.strictObject({ jobId: jobIdInput, findingId: idOf<string>() }),
    touches: ['paint'],
  }),
  'paint.addReadings': write<{ readonly added: number }>()({
    needs: 'technician',
    about:
      'Takes in film readings of one panel, before or after work, in the shop’s unit unless one is named.',
    input: z.strictObject({
      ...onPanel,
      values: z.array(z.number()).min(1).max(200),
      unit: filmUnit.optional(),
      phase: z.enum(READING_PHASES).default('before'),
      at: point.nullable().default(null),
      point: z.string().min(1).max(40).nullable().default(null),
      sure: z.boolean().default(false),
      right: z.boolean().default(false),
    }),
    touches: ['paint'],
  }),
  'paint.pasteReadings': write<{ readonly added: number }>()({
    needs: 'technician',
    about:
      'Takes in a gauge’s text (panel, point, reading, unit), all rows or none, in the shop’s unit unless one is named.',
    input: z.strictObject({
      jobId: jobIdInput,
      text: z.string().min(1).max(GAUGE_TEXT_MOST),
      unit: filmUnit.optional(),
      phase: z.enum(READING_PHASES).default('before'),
      sure: z.boolean().default(false),
      right: z.boolean().default(false),
    }),
    touches: ['paint'],
  }),
  'paint.removeReading': write<null>()({
    needs: 'technician',
    about: 'Takes one reading back.',
    input: z.strictObject({ jobId: jobIdInput, readingId: z.int().min(1) }),
    touches: ['paint'],
  }),
  'paint.setSubstrate': write<null>()({
    needs: 'technician',
    about: 'Says what a panel is made of.',
    input: z.strictObject({ ...onPanel, substrate: z.enum(SUBSTRATES) }),
    touches: ['paint'],
  }),
  'paint.feltContamination': write<null>()({
    needs: 'technician',
    about: 'Notes the grit felt through a bag.',
    input: z.strictObject({ ...onPanel, felt: z.enum(FELT) }),
    touches: ['paint'],
  }),
  'paint.allowPanel': write<null>()({
    needs: 'technician',
    about: 'A named person takes a panel beyond the film rules, with a reason that stands on the quote.',
    input: z.strictObject({ ...onPanel, ...allowance }),
    touches: ['paint'],
  }),
  'paint.forbidPanel': write<null>()({
    needs: 'technician',
    about: 'Takes such a permission back.',
    input: z.strictObject(onPanel),
    touches: ['paint'],
  }),
  'paint.recordTestSpot': write<{ readonly estimateId: string | null }>()({
    needs: 'technician',
    about: 'Records sections tried on this car and makes a new version of its estimate.',
    input: z.strictObject({
      ...onPanel,
      role: z.enum(STEP_ROLES),
      passes: z.int().min(1).max(40),
      seconds: z.int().min(1).max(36_000),
      sections: z.int().min(1).max(100).default(1),
      removedTenthUm: z.int().min(0).max(1000).nullable().default(null),
    }),
    touches: ['paint', 'estimates'],
  }),
  'paint.pictures': read<JobPicturesView>()({
    needs: 'technician',
    about: 'Pictures of a job, before and after, and what its customer agreed to about them.',
    input: z.strictObject({ jobId: jobIdInput }),
    listens: ['paint', 'jobs', 'customers', 'vehicles'],
  }),
  'paint.addPicture': write<{ readonly pictureId: string }>()({
    needs: 'technician',
    about: 'Stores a picture (JPEG, PNG or WebP, base64, up to 4 MB) within what the customer agreed to.',
    input: z.strictObject({
      jobId: jobIdInput,
      panel: onPanel.panel.nullable().default(null),
      phase: z.enum(READING_PHASES).default('before'),
      consent: z.enum(['record', 'publish']).default('record'),
      base64: z.string().min(16).max(8_000_000),
    }),
    touches: ['paint'],
  }),
  'paint.removePicture': write<null>()({
    needs: 'technician',
    about: 'Takes a picture out of a job.',
    input: z.strictObject({ pictureId: idOf<string>() }),
    touches: ['paint'],
  }),
  'paint.picture': document()({
    needs: 'technician',
    about: 'The picture itself.',
    input: z.strictObject({ pictureId: idOf<string>() }),
  }),
  'paint.steps': read<readonly StepView[]>()({
    needs: 'technician',
    about: 'Machine, pad and liquid of each step as the shop uses it, and the film that one pass takes.',
    input: z.strictObject({}),
    listens: ['paint', 'shop'],
  }),
  'paint.setStep': write<null>()({
    needs: 'owner',
    about: 'Sets machine, pad, liquid and removal rate of a step.',
    input: machineStep.extend({ revision: stepRevision }),
    touches: ['paint', 'estimates'],
  }),
  'paint.refitStep': write<{
    readonly tenthUmPerKs: number;
    readonly errorPerKs: number;
    readonly n: number;
  }>()({
    needs: 'owner',
    about: 'Fits a step’s removal rate to the shop’s own test spots, least squares through the origin.',
    input: z.strictObject({ role: z.enum(STEP_ROLES), revision: stepRevision }),
    touches: ['paint', 'estimates'],
  }),
} as const satisfies Readonly<Record<string, Entry>>;
