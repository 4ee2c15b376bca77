const source = String.raw`\d{1,3}(?:\.\d{1,3}){3}(?:/\d{1,2})?`;
const sources = `${source}(?:, ${source})*`;
const ports = String.raw`\d{1,5}(?:[-:]\d{1,5})?(?:, ?\d{1,5}(?:[-:]\d{1,5})?)*`;
const name = '[A-Za-z0-9_.-]+';

/** The forms that `openingCommands` writes, to the last character; the path of a program is no part that is free. */
const forms: readonly RegExp[] = [
  `sudo ufw allow proto tcp from ${source} to any port ${ports}`,
  String.raw`sudo nft insert rule (?:ip|inet) ${name} ${name} ip saddr \{ ${sources} \} tcp dport \{ ${ports} \} accept`,
  `sudo iptables(?:-legacy)? -I INPUT -p tcp -s ${source} -m multiport --dports ${ports} -j ACCEPT`,
  `sudo firewall-cmd --permanent --add-rich-rule='rule family="ipv4" source address="${source}" port port="${ports}" protocol="tcp" accept'`,
  'sudo firewall-cmd --reload',
  `netsh advfirewall firewall add rule name=Setside dir=in action=allow protocol=TCP localport=${ports} remoteip=${source}(?:,${source})*`,
].map((form) => new RegExp(`^${form}$`));

/**
 * The words of a line that opens a firewall, for a program that runs it without a shell; null for any other line, so that
 * nothing is run that came from elsewhere.
 */
export function wordsOfOpening(line: string): readonly string[] | null {
  if (!forms.some((form) => form.test(line))) return null;
  return [...line.matchAll(/([^\s']*)'([^']*)'|(\S+)/g)].map((match) => match[3] ?? `${match[1]}${match[2]}`);
}
