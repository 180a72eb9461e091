import { recordTestSpot } from '../flows/recordTestSpot.ts';
import type { HandlersFor } from '../handler.ts';
import { inspectionOf } from '../paint/commands/asked.ts';
import { filmHistory } from '../paint/commands/filmHistory.ts';
import {
  addFindings,
  allowPanel,
  feltContamination,
  forbidPanel,
  removeFinding,
  setSubstrate,
  startInspection,
} from '../paint/commands/notes.ts';
import { addPicture, jobPictures, pictureDocument, removePicture } from '../paint/commands/pictures.ts';
import { addReadings, pasteReadings, removeReading } from '../paint/commands/readings.ts';
import { refitStep, setStep, stepsInUse } from '../paint/commands/steps.ts';
import type { paintEntries } from '../shared/catalogue/paint.ts';

export const paintHandlers: HandlersFor<typeof paintEntries> = {
  'paint.startInspection': startInspection,
  'paint.inspectionOf': inspectionOf,
  'paint.filmHistory': filmHistory,
  'paint.addFindings': addFindings,
  'paint.removeFinding': removeFinding,
  'paint.addReadings': addReadings,
  'paint.pasteReadings': pasteReadings,
  'paint.removeReading': removeReading,
  'paint.setSubstrate': setSubstrate,
  'paint.feltContamination': feltContamination,
  'paint.allowPanel': allowPanel,
  'paint.forbidPanel': forbidPanel,
  'paint.recordTestSpot': recordTestSpot,
  'paint.pictures': jobPictures,
  'paint.addPicture': addPicture,
  'paint.removePicture': removePicture,
  'paint.picture': { make: pictureDocument },
  'paint.steps': stepsInUse,
  'paint.setStep': setStep,
  'paint.refitStep': refitStep,
};
