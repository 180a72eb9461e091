import type { ReactNode } from 'react';
import { Confirm, InlineConfirm, Progress, Undo } from '../../ui/Acts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Figure } from '../../ui/Figure.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { CalmNote, Caution, Empty, ErrorNote, Refusal, Refused } from '../../ui/States.tsx';

function nothing(): void {}

/** Errors, refusals, empty places, questions, progress, a figure that opens. */
export function StatesSheet(): ReactNode {
  return (
    <>
      <Faults />
      <Questions />
      <Quiet />
    </>
  );
}

function Faults(): ReactNode {
  return (
    <Stack gap={3}>
      <Head title="Something went wrong" />
      <ErrorNote
        title="The quote was not sent to Marit Vane."
        text="The mail program did not open."
        safe="Quote 0418 is kept, version 2."
        next="Save the draft and send it yourself."
      >
        <Button onPress={nothing}>Try now</Button>
        <LinkButton onPress={nothing}>Print it</LinkButton>
      </ErrorNote>
      <Refused
        what="Bay 4 can’t take this."
        reason="Cutting makes dust; a coating cures here until Fri 08:00."
        remedies={[
          { label: 'Back to Bay 3, Fri', onPress: nothing },
          { label: 'Bay 2, Mon 08:00', onPress: nothing },
        ]}
      />
      <Refusal refusal={{ code: 'STORAGE', data: { kind: 'full' } }} />
      <Caution>
        Keep off the door edges: clear is thinnest there. The technician may stop at any reading.
      </Caution>
    </Stack>
  );
}

function Questions(): ReactNode {
  return (
    <Stack gap={3}>
      <Head title="Questions" note="only for what can’t be taken back" />
      <Confirm
        title="Issue invoice 2026-0391?"
        text="Greta Holm, €812.40. It gets the next number and never changes; only a credit note can correct it."
        yes="Issue it"
        no="Not yet"
        onYes={nothing}
        onNo={nothing}
      />
      <InlineConfirm
        question="Fri 16:30 was promised. Move it?"
        yes="Move"
        no="Leave"
        onYes={nothing}
        onNo={nothing}
      />
      <Undo text={<span>Ellory moved to bay 2, Mon 08:00</span>} onUndo={nothing} />
    </Stack>
  );
}

function Quiet(): ReactNode {
  return (
    <Stack gap={3}>
      <Head title="Waiting, empty, opened" />
      <Progress
        label="Reading 2 years of jobs"
        done={1204}
        total={3118}
        note="About 40 s; carry on."
        onCancel={nothing}
      />
      <Empty title="No deliveries on their way." text="What you order shows here until it is on the shelf.">
        <Button onPress={nothing}>See what runs out</Button>
      </Empty>
      <CalmNote title="Tomas changed the cut hours a moment ago." text="Yours 3.0 h, his 3.4 h.">
        <Button onPress={nothing}>Take his</Button>
        <LinkButton onPress={nothing}>Keep mine</LinkButton>
      </CalmNote>
      <div>
        <Figure
          size={4}
          amount={{ value: '9.5', unit: 'h' }}
          range="8.1–12.0"
          why={{
            inputs: [
              { label: 'Sections', value: '214' },
              { label: 'Passes', value: '2' },
            ],
            rule: 'Sum of panels, lognormal',
            source: 'Own history, 62 jobs like it',
            check: 'Of 100 such, 81 lay inside',
          }}
        />
      </div>
    </Stack>
  );
}
