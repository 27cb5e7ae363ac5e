"""What stores write: their sites, their stock, the consultations they keep. The only SQL of the service."""
