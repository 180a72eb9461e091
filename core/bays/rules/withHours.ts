import type { StagePlan } from '../../shared/stagePlan.ts';
import type { JobSpec, StageSpec } from './model.ts';

/** Hours of a job that are not agreed to so far, and what all its stages share in log minutes. */
export type OtherHours = {
  readonly stages: readonly Pick<StagePlan, 'kind' | 'p50Min' | 'mu' | 'sigma' | 'crew'>[];
  readonly jobSigma: number;
};

/**
 * A job on the board with other hours in the places it has: stages that are done stay, one that is not wanted any more
 * takes no time. Null where the other hours hold attended work that has no place on the board yet.
 */
export function withHours(job: JobSpec, hours: OtherHours): JobSpec | null {
  const wanted = hours.stages.filter((s) => s.crew > 0 && s.p50Min > 0);
  if (wanted.some((w) => !job.stages.some((s) => s.kind === w.kind))) return null;
  const stages = job.stages.map((stage): StageSpec => {
    if (stage.state === 'done' || stage.state === 'dropped' || stage.crew === 0) return stage;
    const other = wanted.find((w) => w.kind === stage.kind);
    if (!other) return { ...stage, labourMin: 0, mu: 0, sigma: 0 };
    // Hours are of all people together; two who work at once are half as long at the car.
    return {
      ...stage,
      labourMin: Math.ceil(other.p50Min / other.crew),
      mu: other.mu - Math.log(other.crew),
      sigma: other.sigma,
    };
  });
  return { ...job, stages, jobSigma: hours.jobSigma };
}
