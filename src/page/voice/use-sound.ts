import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Judgement } from '../../facts/index.ts';
import { aloud, sentence, spokenLines } from '../../words/index.ts';
import type { PageState } from '../state/index.ts';
import { Announcer } from './announcer.ts';
import { changedAddress } from './changed-address.ts';
import { placeStepOf } from './nearing.ts';
import { keepSound, keptSound, type SoundChoices, soundPlace } from './sound-choices.ts';
import { onVoices, ownVoice } from './speaker.ts';
import { TonePlayer } from './tone-player.ts';
import { goneTones, verdictTones } from './tones.ts';
import { useFloor } from './use-floor.ts';
import { useTellings } from './use-tellings.ts';

export interface Sound {
  readonly choices: SoundChoices;
  choose(change: Partial<SoundChoices>): void;
  /** Wanted, but the browser waits for a touch. */
  readonly waits: boolean;
  /** Wanted, but another tab is heard. */
  readonly elsewhere: boolean;
  /** Whether this computer has a voice of its own. */
  readonly hasVoice: boolean;
  example(what: Judgement | 'gone'): void;
  /** A guest has said something; `text` is for the voice. */
  tellWord(text: string): void;
}

/** What the switch shows: how it sounds, or why it does not yet. */
export function soundState({
  choices,
  waits,
  elsewhere,
}: Sound): SoundChoices['how'] | 'waits' | 'elsewhere' {
  return waits ? 'waits' : elsewhere ? 'elsewhere' : choices.how;
}

/** What is heard from across the room: each new frame's verdict, by tones and by a voice, as the operator has chosen. */
export function useSound({
  frames,
  link,
  allFrames,
  station,
}: Pick<PageState, 'frames' | 'link' | 'allFrames' | 'station'>): Sound {
  const [choices, setChoices] = useChoices();
  const latest = useRef(choices);
  latest.current = choices;
  const player = useMemo(() => new TonePlayer(), []);
  const announcer = useMemo(() => new Announcer(player, () => latest.current), [player]);
  const isOn = choices.how !== 'off';
  const isReady = useUnlocked(player, isOn);
  const hasFloor = useFloor(isOn && isReady);
  useEffect(() => (hasFloor ? undefined : announcer.silence()), [hasFloor, announcer]);
  useAnnouncements(announcer, { frames, link, allFrames }, hasFloor);
  useChangedAddress(announcer, station, hasFloor);
  return {
    choices,
    choose: setChoices,
    waits: isOn && !isReady,
    elsewhere: isOn && isReady && !hasFloor,
    hasVoice: useHasVoice(),
    tellWord: (text) => {
      if (hasFloor) announcer.announceWord(text);
    },
    example: useCallback(
      (what) => {
        const pattern = what === 'gone' ? goneTones : verdictTones[what];
        void player
          .unlock()
          .then(() => announcer.example(pattern, what === 'doubt' ? spokenLines.example : null));
      },
      [player, announcer],
    ),
  };
}

/** Follows the frames and the line; what happens while another tab is heard is told there. */
function useAnnouncements(
  announcer: Announcer,
  { frames, link, allFrames }: Pick<PageState, 'frames' | 'link' | 'allFrames'>,
  hasFloor: boolean,
): void {
  useTellings({ frames, link, allFrames }, (tellings) => {
    if (!hasFloor) return;
    for (const telling of tellings) {
      const frame = frames.byId.get(telling.frame);
      announcer.announce({ telling, step: frame === undefined ? null : placeStepOf(frame) });
    }
  });
  const isLost = link.state === 'lost';
  // biome-ignore lint/correctness/useExhaustiveDependencies: said when the line goes, not when the floor is given
  useEffect(() => {
    if (isLost && hasFloor) announcer.announceGone();
  }, [isLost]);
}

/** Said once for each change, also where it was there when the page opened: the station starts at another address. */
function useChangedAddress(announcer: Announcer, station: PageState['station'], hasFloor: boolean): void {
  const told = useRef('');
  const changed = changedAddress(station);
  const text = changed === null ? '' : aloud(sentence(changed));
  useEffect(() => {
    if (text === '') told.current = '';
    if (!hasFloor || text === told.current) return;
    told.current = text;
    announcer.announceChanged(text);
  }, [announcer, text, hasFloor]);
}

/** The choices, the same in every tab of the browser. */
function useChoices(): [SoundChoices, (change: Partial<SoundChoices>) => void] {
  const [choices, setChoices] = useState(keptSound);
  useEffect(() => {
    const changed = ({ key }: StorageEvent): void => {
      if (key === soundPlace) setChoices(keptSound());
    };
    addEventListener('storage', changed);
    return () => removeEventListener('storage', changed);
  }, []);
  const choose = (change: Partial<SoundChoices>): void => {
    const next = { ...choices, ...change };
    keepSound(next);
    setChoices(next);
  };
  return [choices, choose];
}

/** Whether it may sound. Every touch and key tries, after a reload too; a context that fell asleep is woken the same way. */
function useUnlocked(player: TonePlayer, wanted: boolean): boolean {
  const [ready, setReady] = useState(false);
  useEffect(() => {
    if (!wanted) return undefined;
    const touched = (): void => void player.unlock().then(() => setReady(player.isReady));
    if (navigator.userActivation?.hasBeenActive === true) touched();
    addEventListener('pointerdown', touched);
    addEventListener('keydown', touched);
    return () => {
      removeEventListener('pointerdown', touched);
      removeEventListener('keydown', touched);
    };
  }, [player, wanted]);
  useEffect(() => () => player.close(), [player]);
  return ready;
}

function useHasVoice(): boolean {
  const [has, setHas] = useState(() => ownVoice() !== null);
  useEffect(() => onVoices(() => setHas(ownVoice() !== null)), []);
  return has;
}
