import { MACHINE_STAGES } from '../shared/vocabulary.ts';

/** The stages that take film off paint, as the list of an `IN (…)`. */
export const MACHINE_KINDS = MACHINE_STAGES.map((kind) => `'${kind}'`).join(', ');
