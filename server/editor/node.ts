/** The server as a process of its own, over stdio or the channel that its arguments name. Ends with its parent. */
import { type ConnectionStrategy, LSPErrorCodes, Message } from "vscode-languageserver";
import { createConnection } from "vscode-languageserver/node";
import { startServer } from "./server.ts";

/**
 * While a long program is reviewed, fast typing piles up requests that the editor has already given up. Each would cost
 * a review of a text that is gone, so a request that still waits is answered as cancelled at once.
 */
const strategy: ConnectionStrategy = {
  cancelUndispatched(message, next) {
    if (!Message.isRequest(message)) return next(message);
    const error = { code: LSPErrorCodes.RequestCancelled, message: "given up before it was begun" };
    return { jsonrpc: "2.0", id: message.id, error };
  },
};

// The connection itself watches the parent's process id from `initialize` and the end of the input stream.
startServer(createConnection(strategy));
