/** The server as a process of its own, over stdio or the channel that its arguments name. Ends with its parent. */
import { createConnection } from "vscode-languageserver/node";
import { startServer } from "./server.ts";

// The connection itself watches the parent's process id from `initialize` and the end of the input stream.
startServer(createConnection());
