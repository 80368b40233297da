//! Files in the database: bytes under names. They never stand in place of the database: there is no room for them there. gloo
//! has nothing for it; the library is that of `database`.

use crate::browser::given::FileBytes;
use crate::browser::store::database::{FILES, Refusal, refusal, the};
use idb::{Error, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};

/// Keeps a file, instead of one of the same name.
///
/// # Errors
/// Where there is no room, or no database.
pub async fn keep(name: &str, bytes: &FileBytes) -> Result<(), Refusal> {
    change(name, Some(bytes)).await
}

/// Removes a file.
///
/// # Errors
/// Where there is no database.
pub async fn remove(name: &str) -> Result<(), Refusal> {
    change(name, None).await
}

/// A file; `None` where there is none of this name.
///
/// # Errors
/// Where there is no database.
pub async fn read(name: &str) -> Result<Option<FileBytes>, Refusal> {
    let database = the().await;
    let opened = database.opened.as_ref().ok_or(Refusal::Other)?;
    let found = async {
        let transaction = opened.transaction(&[FILES], TransactionMode::ReadOnly)?;
        let found = transaction.object_store(FILES)?.get(JsValue::from(name))?.await?;
        Ok(found)
    };
    let found: Result<Option<JsValue>, Error> = found.await;
    Ok(found.map_err(|error| refusal(&error))?.and_then(|bytes| bytes.dyn_into().ok()).map(FileBytes))
}

async fn change(name: &str, bytes: Option<&FileBytes>) -> Result<(), Refusal> {
    let database = the().await;
    let opened = database.opened.as_ref().ok_or(Refusal::Other)?;
    let changed = async {
        let transaction = opened.transaction(&[FILES], TransactionMode::ReadWrite)?;
        let store = transaction.object_store(FILES)?;
        match bytes {
            Some(bytes) => drop(store.put(&bytes.0, Some(&name.into()))?.await?),
            None => store.delete(JsValue::from(name))?.await?,
        }
        transaction.await?;
        Ok(())
    };
    let changed: Result<(), Error> = changed.await;
    changed.map_err(|error| refusal(&error))
}
