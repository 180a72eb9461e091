import { type CalendarDate, fromAbsolute, parseDate, type ZonedDateTime } from '@internationalized/date';
import { type ComponentProps, type ReactNode, useContext } from 'react';
import {
  Button,
  Calendar,
  CalendarCell,
  CalendarGrid,
  CalendarHeading,
  DateFieldStateContext,
  DateInput,
  DatePicker,
  DateSegment,
  Dialog,
  Group,
  I18nProvider,
  Popover,
} from 'react-aria-components';
import { dayOf, hourCycleOf } from '#core/shared/text/when.ts';
import { instantOf } from '#core/shared/time.ts';
import type { EpochMs, LocalDay } from '#core/shared/units.ts';
import { UNREAD } from '../bridge/commands.ts';
import { useManner, useText } from '../bridge/texts.tsx';
import css from './DateFields.module.css';
import { Field, type FieldFrame } from './Field.tsx';

type DatePart = { readonly type: string; readonly isPlaceholder: boolean };

/** The first year that counts as written out. `26` is never guessed to mean another. */
const FULL_YEAR = 1000;

/** One part of a date. In a date that was begun and not ended, the parts still missing are marked unread: half a date is never saved as none, nor as one of the year 26. */
function Part(props: {
  readonly part: ComponentProps<typeof DateSegment>['segment'];
  readonly label: string;
}): ReactNode {
  const parts: readonly DatePart[] = useContext(DateFieldStateContext)?.segments ?? [];
  const begun = parts.some((part) => part.type !== 'literal' && !part.isPlaceholder);
  const short = props.part.type === 'year' && (props.part.value ?? FULL_YEAR) < FULL_YEAR;
  const missing = begun && (props.part.isPlaceholder || short);
  return (
    <DateSegment
      segment={props.part}
      className={css['segment'] ?? ''}
      {...(missing ? { [UNREAD]: props.label } : {})}
    />
  );
}

function Picker(props: { readonly label: string }): ReactNode {
  const t = useText();
  return (
    <>
      <Group className={css['group'] ?? ''}>
        <DateInput className={css['segments'] ?? ''}>
          {(segment) => <Part part={segment} label={props.label} />}
        </DateInput>
        <Button className={css['open'] ?? ''} aria-label={t('ui.calendar')}>
          <svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
            <path d="M.5 2.500h13v11H.5zM.5 5.500h13M4 .5v3M10 .5v3" fill="none" stroke="currentColor" />
          </svg>
        </Button>
      </Group>
      <Popover className={css['pop'] ?? ''} offset={2}>
        <Dialog className={css['dialog'] ?? ''} aria-label={props.label}>
          <Calendar>
            <header className={css['month']}>
              <Button slot="previous" className={css['turn'] ?? ''}>
                ‹
              </Button>
              <CalendarHeading />
              <Button slot="next" className={css['turn'] ?? ''}>
                ›
              </Button>
            </header>
            <CalendarGrid weekdayStyle="short">
              {(date) => <CalendarCell date={date} className={css['day'] ?? ''} />}
            </CalendarGrid>
          </Calendar>
        </Dialog>
      </Popover>
    </>
  );
}

/** The day read back beside the label, where nothing below has to move while it is typed; a short year is asked for in full. */
function useReadBack(atMs: EpochMs | null): string | undefined {
  const manner = useManner();
  const t = useText();
  if (atMs === null) return undefined;
  const { year } = fromAbsolute(atMs, manner.zone);
  return year < FULL_YEAR ? t('ui.yearInFull') : dayOf(manner, atMs, Date.now());
}

/** A day and a time in the shop's zone; the value is an instant. A time that a clock change skips moves forward. */
export function DateTimeField(
  props: FieldFrame & { readonly value: EpochMs | null; readonly onChange: (value: EpochMs | null) => void },
): ReactNode {
  const manner = useManner();
  const { zone, region } = manner;
  const said = useReadBack(props.value);
  return (
    <Field {...props} hint={props.hint ?? said}>
      {({ describedBy }) => (
        <I18nProvider locale={region}>
          <DatePicker<ZonedDateTime>
            aria-label={props.label}
            {...(describedBy ? { 'aria-describedby': describedBy } : {})}
            style={{ flex: 1 }}
            granularity="minute"
            hourCycle={hourCycleOf(region)}
            hideTimeZone
            isDisabled={props.off !== undefined}
            isInvalid={props.error !== undefined && props.error !== null}
            value={props.value === null ? null : fromAbsolute(props.value, zone)}
            placeholderValue={fromAbsolute(Date.now(), zone).set({
              hour: 9,
              minute: 0,
              second: 0,
              millisecond: 0,
            })}
            onChange={(v) => props.onChange(v === null ? null : (v.toDate().getTime() as EpochMs))}
          >
            <Picker label={props.label} />
          </DatePicker>
        </I18nProvider>
      )}
    </Field>
  );
}

/** A day of the shop's calendar. */
export function DayField(
  props: FieldFrame & {
    readonly value: LocalDay | null;
    readonly onChange: (value: LocalDay | null) => void;
  },
): ReactNode {
  const manner = useManner();
  const { region } = manner;
  const said = useReadBack(props.value === null ? null : instantOf(props.value, 720, manner.zone));
  return (
    <Field {...props} hint={props.hint ?? said}>
      {({ describedBy }) => (
        <I18nProvider locale={region}>
          <DatePicker<CalendarDate>
            aria-label={props.label}
            {...(describedBy ? { 'aria-describedby': describedBy } : {})}
            style={{ flex: 1 }}
            isDisabled={props.off !== undefined}
            isInvalid={props.error !== undefined && props.error !== null}
            value={props.value === null ? null : parseDate(props.value)}
            onChange={(v) => props.onChange(v === null ? null : (v.toString() as LocalDay))}
          >
            <Picker label={props.label} />
          </DatePicker>
        </I18nProvider>
      )}
    </Field>
  );
}
