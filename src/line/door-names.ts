/** How the doors are written, as their protocols are. */
export const doorNames = { ftp: 'FTP', ftps: 'FTPS', sftp: 'SFTP' } as const;
