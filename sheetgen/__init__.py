"""sheetgen: specification workbooks for garments: build, read, issue, audit, accept."""
