import { honestyFile } from '../figures/honestyFile.ts';
import { hoursFile } from '../figures/hoursFile.ts';
import { mondayFile } from '../figures/mondayFile.ts';
import { moneyFile } from '../figures/moneyFile.ts';
import { type WhatIfModel, whatIf } from '../figures/rules/whatIf.ts';
import { mondayView } from '../flows/monday.ts';
import type { HandlersFor } from '../handler.ts';
import type { figuresEntries } from '../shared/catalogue/figures.ts';
import type { whatIfEntries } from '../shared/catalogue/whatIf.ts';
import { cellJobs } from '../views/cellJobs.ts';
import { honestyView, marginView } from '../views/figures.ts';
import { moneyFigures } from '../views/moneyFigures.ts';
import { remembered } from '../views/remembered.ts';
import { utilizationView } from '../views/utilization.ts';
import { gatherWhatIf, whatIfStart } from '../views/whatIf.ts';

export const figuresHandlers: HandlersFor<typeof figuresEntries> = {
  'figures.utilization': remembered('utilization', utilizationView),
  'figures.hoursFile': { make: hoursFile },
  'figures.cellJobs': cellJobs,
  'figures.honesty': remembered('honesty', honestyView),
  'figures.honestyFile': { make: honestyFile },
  'figures.moneyFile': { make: moneyFile },
  'figures.margin': marginView,
  'figures.money': remembered('money', moneyFigures),
  'figures.monday': mondayView,
  'figures.mondayFile': { make: (ctx) => mondayFile(ctx, mondayView(ctx)) },
};
export const whatIfHandlers: HandlersFor<typeof whatIfEntries> = {
  'figures.whatIfStart': whatIfStart,
  'figures.whatIf': { gather: gatherWhatIf, run: (model: never, task) => whatIf(model as WhatIfModel, task) },
};
