import { addDust, dropDust, dropGap, setGap } from '../bays/commands/apart.ts';
import { boardView } from '../bays/commands/boardView.ts';
import { calendarEntries } from '../bays/commands/calendar.ts';
import { changeCheck, moveCheck, splitStage } from '../bays/commands/changes.ts';
import { offersView } from '../bays/commands/offers.ts';
import { takeNote } from '../bays/commands/plan.ts';
import { planFaults, promisesNow } from '../bays/commands/promises.ts';
import { gatherReplan, type ReplanModel, runReplan } from '../bays/commands/replan.ts';
import {
  addAbsence,
  addBay,
  addClosure,
  changeBay,
  dropAbsence,
  dropClosure,
  endBay,
  setBays,
  setOpeningHours,
  setTechnician,
  setupView,
} from '../bays/commands/setup.ts';
import { calendarFile } from '../documents/calendar.ts';
import { bookEarliest } from '../flows/bookEarliest.ts';
import { bookOffer } from '../flows/bookOffer.ts';
import { applyReplan, move, resize, restorePlans, swap } from '../flows/changePlan.ts';
import { waysOut } from '../flows/deskRisks.ts';
import type { HandlersFor } from '../handler.ts';
import type { bayChangeEntries } from '../shared/catalogue/bayChanges.ts';
import type { baysEntries } from '../shared/catalogue/bays.ts';

export const baysHandlers: HandlersFor<typeof baysEntries> = {
  'bays.setup': setupView,
  'bays.setBays': setBays,
  'bays.addBay': addBay,
  'bays.changeBay': changeBay,
  'bays.endBay': endBay,
  'bays.setOpeningHours': setOpeningHours,
  'bays.setTechnician': setTechnician,
  'bays.addClosure': addClosure,
  'bays.dropClosure': dropClosure,
  'bays.setGap': setGap,
  'bays.dropGap': dropGap,
  'bays.addDust': addDust,
  'bays.dropDust': dropDust,
  'bays.addAbsence': addAbsence,
  'bays.dropAbsence': dropAbsence,
  'bays.board': boardView,
  'bays.promises': promisesNow,
  'bays.offers': offersView,
  'bays.bookOffer': bookOffer,
  'bays.bookEarliest': bookEarliest,
  'bays.checkMove': moveCheck,
  'bays.move': move,
  'bays.swap': swap,
  'bays.split': splitStage,
  'bays.restorePlans': restorePlans,
  'bays.replan': { gather: gatherReplan, run: (model: never, task) => runReplan(model as ReplanModel, task) },
  'bays.applyReplan': applyReplan,
  'bays.faults': planFaults,
  'bays.noteConflict': takeNote,
  'bays.calendarFile': {
    make: (ctx, input) => {
      const { shop, entries, fileName } = calendarEntries(ctx, input);
      return async () => calendarFile(shop, entries, fileName);
    },
  },
};
export const bayChangeHandlers: HandlersFor<typeof bayChangeEntries> = {
  'bays.checkChange': changeCheck,
  'bays.waysOut': waysOut,
  'bays.resize': resize,
};
