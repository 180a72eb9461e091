import { arrive, markReady } from '../bookings/commands/car.ts';
import { sharesIfStopped } from '../bookings/commands/ends.ts';
import { changeJob, openJob, openRedo } from '../bookings/commands/jobs.ts';
import { setStages } from '../bookings/commands/setStages.ts';
import { dropStage, noteStage, panelDone } from '../bookings/commands/stageMarks.ts';
import { pauseStage, startStage } from '../bookings/commands/stages.ts';
import { correctTime, typeTime } from '../bookings/commands/time.ts';
import { jobCardFile } from '../bookings/files.ts';
import { cancelJob, noShow } from '../flows/cancelJob.ts';
import { carRecordDraft, carRecordFile } from '../flows/carRecordFile.ts';
import { deskRisks } from '../flows/deskRisks.ts';
import { sendHome } from '../flows/estimateJob.ts';
import { finishStage } from '../flows/finishStage.ts';
import { handOver } from '../flows/handOver.ts';
import { stopHalfWay } from '../flows/stopJob.ts';
import type { HandlersFor } from '../handler.ts';
import type { bookingsEntries } from '../shared/catalogue/bookings.ts';
import { deskView } from '../views/desk.ts';
import { handFacts } from '../views/handFacts.ts';
import { cardView } from '../views/jobCard.ts';
import { jobView } from '../views/jobFacts.ts';
import { jobsOf, jobsPage } from '../views/jobLists.ts';

export const bookingsHandlers: HandlersFor<typeof bookingsEntries> = {
  'bookings.job': jobView,
  'bookings.jobs': jobsPage,
  'bookings.jobsOf': jobsOf,
  'bookings.desk': deskView,
  'bookings.risks': deskRisks,
  'bookings.card': cardView,
  'bookings.cardFile': { make: jobCardFile },
  'bookings.recordFile': { make: carRecordFile },
  'bookings.recordDraft': { make: carRecordDraft },
  'bookings.hand': handFacts,
  'bookings.sharesIfStopped': sharesIfStopped,

  'bookings.openJob': openJob,
  'bookings.changeJob': changeJob,
  'bookings.setStages': (ctx, { jobId, stages, basis }) => ({
    stageIds: setStages(ctx, jobId, stages, { basis }),
  }),
  'bookings.arrive': arrive,
  'bookings.sendHome': sendHome,
  'bookings.startStage': startStage,
  'bookings.pauseStage': pauseStage,
  'bookings.finishStage': finishStage,
  'bookings.panelDone': panelDone,
  'bookings.noteStage': noteStage,
  'bookings.dropStage': dropStage,
  'bookings.typeTime': typeTime,
  'bookings.correctTime': correctTime,
  'bookings.markReady': markReady,
  'bookings.handOver': handOver,
  'bookings.noShow': noShow,
  'bookings.cancelJob': cancelJob,
  'bookings.stopHalfWay': stopHalfWay,
  'bookings.openRedo': openRedo,
};
