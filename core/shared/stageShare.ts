import type { Ppm } from './units.ts';

/** Where a share comes from: named by a person, the whole stage, panels finished, time against the plan, nothing done. */
export type ShareBasis = 'named' | 'whole' | 'panels' | 'time' | 'nothing';
/** What was done of a stage when its job was stopped half way. */
export type StageShare = { readonly sharePpm: Ppm; readonly basis: ShareBasis };
