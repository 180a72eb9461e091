import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { Switch } from '../../ui/Choice.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Empty } from '../../ui/States.tsx';
import { ALL_WORK, staffOf, type Work } from './draft.ts';
import type { StepProps } from './SetUpSteps.tsx';
import css from './shop.module.css';
import { WorkFields } from './WorkFields.tsx';

/** Who works at cars: skills, pace, shifts. */
export function WorkStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  const staff = staffOf(draft).filter((p) => p.name.trim() !== '');
  if (staff.length === 0) return <Empty title={t('shop.work.nobody')} />;
  function put(name: string, role: string, work: Work | null): void {
    if (role === 'owner' && name === draft.owner) change({ ownerWork: work });
    else change({ people: draft.people.map((p) => (p.name === name ? { ...p, work } : p)) });
  }
  return (
    <div className={css['wide']}>
      <p className="quiet">{t('shop.work.text')}</p>
      <List label={t('shop.step.work')}>
        {staff.map(({ name, role, work }) => (
          <Item key={name}>
            <div className={css['worker']}>
              <b className="cut">{name}</b>
              <Switch
                label={t('shop.work.does')}
                value={work !== null}
                onChange={(on) => put(name, role, on ? ALL_WORK : null)}
              />
              {work ? (
                <WorkFields
                  name={name}
                  work={work}
                  open={draft.shopWeek}
                  unread={draft.unread}
                  onUnread={(unread) => change({ unread })}
                  onChange={(next) => put(name, role, next)}
                />
              ) : null}
            </div>
          </Item>
        ))}
      </List>
    </div>
  );
}
