/** How Chromium is started. */
export declare const kLaunch: { executablePath: string; args: string[] };
