/** `--home` as it is typed behind a command for this home, quoted for a POSIX shell or PowerShell where that is needed. */
export function homeOption(home: string): string {
  const isPlain = /^[\w./:\\-]+$/.test(home);
  return `--home ${isPlain ? home : `'${home.replaceAll("'", "'\\''")}'`}`;
}
