import type { OutlierStory } from '../views/figures.ts';
import type { TextKey } from './en.ts';
import type { TextValues } from './say.ts';

/** One thing that was recorded about a stage that was far off, in words: the same on the screen and in the file. */
export function sayStory(t: (key: TextKey, values?: TextValues) => string, story: OutlierStory): string {
  switch (story.kind) {
    case 'note':
      return t('figures.story.note', { text: story.text, by: story.by });
    case 'override':
      return t('figures.story.override', { text: story.text, by: story.by });
    case 'corrected':
      return t('figures.story.corrected', { times: story.times });
    case 'stretches':
      return t('figures.story.stretches', { times: story.times, people: story.people });
  }
}
