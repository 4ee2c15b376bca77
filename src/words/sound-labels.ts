/** Words of what is heard and read from across the room. */
export const soundLabels = {
  title: 'Sound',
  how: 'Heard',
  ways: { off: 'nothing', tones: 'tones', voice: 'tones and a voice' },
  about: 'Of',
  what: { all: 'every frame', trouble: 'doubts and bad ones only' },
  volume: 'Volume',
  nearing: 'While something is moved to its place',
  nearingHelp:
    'Each frame sounds higher the nearer it lies to its reference, and twice when it is there. Let the camera shoot on.',
  listen: 'How it sounds',
  gone: 'station gone',
  noVoice: 'This browser has no English voice of its own: there will be tones only.',
  waits: 'A browser plays nothing before it is touched: a click or a key is enough.',
  elsewhere: 'Another tab of this browser is the one that is heard.',
  touch: 'Touch for sound',
  farNumber: 'Frame',
  fullScreen: 'Full screen',
  large: 'Word as large as the screen',
  small: 'Back',
} as const;
