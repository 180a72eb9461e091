import type { ReactNode } from 'react';
import { hasEnded } from '#core/shared/ended.ts';
import type { WeeklyHours } from '#core/shared/examples.ts';
import { inOrder } from '#core/shared/text/inOrder.ts';
import type { BaysSetupView, TechnicianView } from '#core/shared/views/baysSetup.ts';
import type { StaffRow } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText, useToday } from '../../bridge/texts.tsx';
import { Switch } from '../../ui/Choice.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import { ALL_WORK, type Work } from './draft.ts';
import css from './shop.module.css';
import { useTyped } from './useTyped.ts';
import { WorkFields } from './WorkFields.tsx';
import { sameWeek, weekOf } from './week.ts';

/** Who works at cars: skills, pace, shifts; saved as it is changed. */
export function WorkPart(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const { region } = useManner();
  const today = useToday();
  const people = useQuery('access.people', {});
  const open = weekOf(props.setup.hours, 'shop');
  return (
    <>
      <p className="quiet">{t('shop.work.text')}</p>
      <List label={t('shop.step.work')}>
        {inOrder(region, people.data ?? [])
          .filter((p) => !hasEnded(p, today))
          .map((p) => (
            <Item key={p.id}>
              <Worker
                person={p}
                open={open}
                row={props.setup.technicians.find((row) => row.personId === p.id)}
              />
            </Item>
          ))}
      </List>
    </>
  );
}

type Row = Pick<Work, 'skills' | 'speedPpm'> & { readonly shifts: readonly WeeklyHours[] };

function Worker(props: {
  readonly person: StaffRow;
  readonly open: readonly WeeklyHours[];
  readonly row: TechnicianView | undefined;
}): ReactNode {
  const t = useText();
  const { person, open } = props;
  const set = useCommand('bays.setTechnician');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [row, setRow] = useTyped<Row | undefined>(props.row, set.busy);
  const work = workOf(row, open);
  function put(next: Work | null): void {
    const { skills, speedPpm, shifts } = next ?? { ...ALL_WORK, skills: [], shifts: [] };
    const kept = { skills: [...skills], speedPpm, shifts: [...(shifts ?? open)] };
    setRow(kept);
    void set.run({ personId: person.id, ...kept });
  }
  return (
    <div className={css['worker']}>
      <b className="cut">{person.name}</b>
      <Switch
        label={t('shop.work.does')}
        value={work !== null}
        why={off}
        onChange={(on) => put(on ? ALL_WORK : null)}
      />
      {work ? <WorkFields name={person.name} work={work} open={open} off={off} onChange={put} /> : null}
      <Refusal refusal={set.refusal} />
    </div>
  );
}

/** Somebody without skills and shifts is not planned: the same as not working at cars. */
function workOf(row: Row | undefined, open: readonly WeeklyHours[]): Work | null {
  if (!row || (row.skills.length === 0 && row.shifts.length === 0)) return null;
  const { skills, speedPpm, shifts } = row;
  return { skills, speedPpm, shifts: sameWeek(shifts, open) ? null : shifts };
}
