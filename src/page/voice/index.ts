/** voice: what is heard from across the room. Patterns and what is told are plain data; playing them is apart. */
export { gravest } from './backlog.ts';
export { SoundForm } from './sound-form.tsx';
export { type Sound, soundState, useSound } from './use-sound.ts';
export { useTellings } from './use-tellings.ts';
